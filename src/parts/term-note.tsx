import { type ReactNode, useId } from "react";
import { sayExplained, TERMS, type TermId } from "../../shared/wording/term";

/** A trade term with its explanation one click away; a native popover, so that Escape and a click elsewhere close it. */
export function TermNote({ id, children }: { readonly id: TermId; readonly children?: ReactNode }) {
  const noteId = useId();
  const [name, explanation] = TERMS[id];
  return (
    <span className="term">
      <button type="button" className="term-word" popoverTarget={noteId}>
        {children ?? name}
        <span className="heard"> {sayExplained(name)}</span>
      </button>
      <span id={noteId} popover="auto" className="term-note" role="note">
        <strong>{name}</strong>
        <span>{explanation}</span>
      </span>
    </span>
  );
}
