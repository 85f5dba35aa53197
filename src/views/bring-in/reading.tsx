import { formatNumber, formatQuantity } from "../../../shared/units/format-quantity";
import type { PageProps } from "../view-props";

/** Progress of the job that runs, with rows, time left, and a way to stop it. */
export function Reading({ state, preferences, commands }: PageProps) {
  const { visit } = state;
  if (visit.stage !== "reading" && visit.stage !== "working-out") return null;
  const progress = visit.stage === "reading" ? visit.progress : null;
  const rows = progress === null ? "" : `${formatNumber(progress.rows, 0, preferences.units.locale)} rows read`;
  const left = progress?.secondsLeft == null ? "" : `, about ${formatQuantity(progress.secondsLeft, "time", preferences.units, 2)} left`;
  return (
    <section className="reading" aria-label="Reading">
      <p role="status">
        {visit.stage === "reading" ? "Reading" : "Working out what it shows"} {rows}
        {left}
      </p>
      {visit.stage === "reading" && (
        <progress max={progress?.totalBytes || 1} value={progress?.bytes ?? 0} aria-label="Share of the files read" />
      )}
      <button type="button" onClick={commands.stop}>
        Stop
      </button>
    </section>
  );
}
