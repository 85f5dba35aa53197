import type { PageProps } from "../view-props";

/** A file that could not be read, or a job that failed: what, and what to do next. */
export function Refused({ state, dispatch }: PageProps) {
  const { visit } = state;
  if (visit.stage !== "refused" && visit.stage !== "broken") return null;
  return (
    <section className="refused" role="alert">
      <p>
        {visit.stage === "refused"
          ? `This cannot be read as a log (${visit.problem.id}).`
          : `Something in the analysis failed: ${visit.message}`}
      </p>
      <button type="button" onClick={() => dispatch({ do: "stop" })}>
        Go back
      </button>
    </section>
  );
}
