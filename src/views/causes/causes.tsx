import type { StoryProps } from "../view-props";

/** A part of the story. */
export function Causes({ visit }: StoryProps) {
  return (
    <section className="chapter" aria-labelledby="causes">
      <h2 id="causes">Why</h2>
      <p>{visit.document.causes.length}</p>
    </section>
  );
}
