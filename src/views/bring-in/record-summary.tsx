import type { LogFault } from "../../../shared/record/log-fault";
import { sayClockZone, sayElapsed, sayInstant, saySpan } from "../../../shared/wording/instant";
import { sayCount } from "../../../shared/wording/reading-progress";
import { Disclosure } from "../../parts/disclosure";
import type { ReadRecord } from "../../state/visit-state";
import type { RecordOutline } from "../../worker/messages";

type Props = { readonly read: ReadRecord; readonly locale: string | null };

/** The record in a sentence: rows, files, length. */
export function sayRecord(outline: RecordOutline, locale: string | null): string {
  const files = outline.files.length === 1 ? "one file" : `${outline.files.length} files`;
  return `${sayCount(outline.rows.accepted, "row", "rows", locale)} from ${files}, over ${sayElapsed(outline.duration)}.`;
}

/** When the record begins and ends, in whose time, and how its clock was read. */
export function RecordClock({ read, locale }: Props) {
  const { clock, duration } = read.outline;
  const intervals = read.traces.filter((trace) => trace.interval !== null);
  return (
    <dl className="clock-facts">
      <dt>First row</dt>
      <dd>{sayInstant(clock, 0, locale)}</dd>
      <dt>Last row</dt>
      <dd>{sayInstant(clock, duration, locale)}</dd>
      <dt>Whose time</dt>
      <dd>{sayClockZone(clock)}</dd>
      {intervals.length === 0 ? null : (
        <>
          <dt>One row every</dt>
          <dd>{[...new Set(intervals.map((trace) => sayInterval(trace.interval ?? 0)))].join(", ")}</dd>
        </>
      )}
      <dt>Read from</dt>
      <dd>
        {[...new Set(read.layouts.map((layout) => layout.clock))].map((sentence) => (
          <bdi key={sentence} className="clock-reading">
            {sentence}
          </bdi>
        ))}
      </dd>
    </dl>
  );
}

const sayInterval = (s: number): string => (s < 120 ? `${Number(s.toPrecision(3))}\u202fs` : `${Number((s / 60).toPrecision(3))}\u202fmin`);

/** Rows that were not read, by their line in the file, and what was noticed on the way. Nothing is lost silently. */
export function RowsLeftOut({ outline, locale }: { readonly outline: RecordOutline; readonly locale: string | null }) {
  const { rejected, duplicate, reordered } = outline.rows;
  const several = outline.files.length > 1;
  return (
    <>
      <p>
        {sayCount(outline.rows.accepted, "row", "rows", locale)} read,{" "}
        {rejected === 0 ? "none" : sayCount(rejected, "line", "lines", locale)} left out
        {duplicate === 0 ? "" : `, ${sayCount(duplicate, "row", "rows", locale)} twice there and used once`}
        {reordered === 0 ? "" : `, ${sayCount(reordered, "row", "rows", locale)} put in order of time`}.
      </p>
      {outline.rejects.length === 0 ? null : (
        <Disclosure
          summary={
            rejected > outline.rejects.length ? `Show the first ${outline.rejects.length} lines left out` : "Show the lines left out"
          }
        >
          <ol className="rejects">
            {outline.rejects.map((reject) => (
              <li key={`${reject.file}:${reject.row}`}>
                Line {reject.row}
                {several ? (
                  <>
                    {" of "}
                    <bdi>{reject.file}</bdi>
                  </>
                ) : null}
                : <bdi>{reject.why}</bdi>
              </li>
            ))}
          </ol>
        </Disclosure>
      )}
    </>
  );
}

/** What was noticed and handled, and what is wrong with the log itself. */
export function ReadingNotes({
  outline,
  faults,
  locale,
}: {
  readonly outline: RecordOutline;
  readonly faults: readonly LogFault[];
  readonly locale: string | null;
}) {
  if (outline.notes.length + faults.length === 0) return <p>Nothing was noticed.</p>;
  return (
    <ul className="reading-notes">
      {outline.notes.map((note) => (
        <li key={`${note.kind} ${note.text}`}>
          <bdi>{note.text}</bdi>
        </li>
      ))}
      {faults.slice(0, MOST_FAULTS).map((fault) => (
        <li key={`${fault.kind} ${fault.channel} ${fault.from}`}>
          {saySpan(outline.clock, fault, locale)}: <bdi>{fault.note}</bdi>
        </li>
      ))}
      {faults.length > MOST_FAULTS ? <li>and {faults.length - MOST_FAULTS} more, all marked under the trace</li> : null}
    </ul>
  );
}

const MOST_FAULTS = 20;
