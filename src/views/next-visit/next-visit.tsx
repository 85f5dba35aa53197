import type { StoryProps } from "../view-props";

/** A part of the story. */
export function NextVisit({ visit }: StoryProps) {
  return (
    <section className="chapter" aria-labelledby="next-visit">
      <h2 id="next-visit">Next visit</h2>
      <p>{visit.document.advice.length}</p>
    </section>
  );
}
