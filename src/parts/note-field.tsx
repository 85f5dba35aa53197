import { useId } from "react";

type Props = { readonly label: string; readonly value: string; readonly onChange: (text: string) => void };

/** A note of any length. Every letter is handed on at once: on site a phone may go to sleep in mid-sentence, or the next log take the page. */
export function NoteField({ label, value, onChange }: Props) {
  const id = useId();
  return (
    <div className="field note-field">
      <label htmlFor={id}>{label}</label>
      <textarea id={id} rows={2} value={value} onChange={(event) => onChange(event.target.value)} />
    </div>
  );
}
