import { useEffect, useId, useRef, useState } from "react";

type Props = { readonly label: string; readonly value: string; readonly onCommit: (text: string) => void };

/** How long after the last key a note is taken over: soon enough to survive a crash, seldom enough not to save every letter. */
const PAUSE_MS = 400;

/** A note of any length. Kept while one types, not only on leaving: on site a phone may go to sleep in mid-sentence. */
export function NoteField({ label, value, onCommit }: Props) {
  const id = useId();
  const [typed, setTyped] = useState(value);
  const sent = useRef(value);
  useEffect(() => {
    // What was sent from here comes back later than the next letter is typed: only what others changed is taken over.
    if (value !== sent.current) setTyped(value);
    sent.current = value;
  }, [value]);
  const commit = () => {
    if (typed === value) return;
    sent.current = typed;
    onCommit(typed);
  };
  useEffect(() => {
    if (typed === value) return;
    const timer = setTimeout(commit, PAUSE_MS);
    return () => clearTimeout(timer);
  });
  return (
    <div className="field note-field">
      <label htmlFor={id}>{label}</label>
      <textarea id={id} rows={2} value={typed} onChange={(event) => setTyped(event.target.value)} onBlur={commit} />
    </div>
  );
}
