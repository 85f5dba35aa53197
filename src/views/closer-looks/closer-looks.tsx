import type { StoryProps } from "../view-props";

/** Pictures that explain a finding. */
export function CloserLooks({ state }: StoryProps) {
  return (
    <section className="closer-looks" aria-label="Closer looks">
      {state.selection.finding}
    </section>
  );
}
