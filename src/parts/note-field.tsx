import { useEffect, useId, useState } from "react";

type Props = { readonly label: string; readonly value: string; readonly onCommit: (text: string) => void };

/** How long after the last key a note is taken over: soon enough to survive a crash, seldom enough not to save every letter. */
const PAUSE_MS = 400;

/** A note of any length. Kept while one types, not only on leaving: on site a phone may go to sleep in mid-sentence. */
export function NoteField({ label, value, onCommit }: Props) {
  const id = useId();
  const [typed, setTyped] = useState(value);
  useEffect(() => setTyped(value), [value]);
  useEffect(() => {
    if (typed === value) return;
    const timer = setTimeout(() => onCommit(typed), PAUSE_MS);
    return () => clearTimeout(timer);
  });
  return (
    <div className="field note-field">
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={2}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => typed !== value && onCommit(typed)}
      />
    </div>
  );
}
