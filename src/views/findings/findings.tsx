import type { StoryProps } from "../view-props";

/** A part of the story. */
export function Findings({ visit }: StoryProps) {
  return (
    <section className="chapter" aria-labelledby="findings">
      <h2 id="findings">What this log shows</h2>
      <p>{visit.document.findings.length}</p>
    </section>
  );
}
