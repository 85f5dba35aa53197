import type { LogFault } from "../../../shared/record/log-fault";
import { formatOwn, formatQuantity } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { RECORD_WORDS } from "../../../shared/wording/bring-in";
import { sayClockReading } from "../../../shared/wording/clock-reading";
import { sayFaultNote } from "../../../shared/wording/fault-note";
import { sayClockZone, sayInstant, saySpan } from "../../../shared/wording/instant";
import { sayReadingNote } from "../../../shared/wording/reading-note";
import { sayRejected } from "../../../shared/wording/row-refusal";
import { Disclosure } from "../../parts/disclosure";
import type { ReadRecord } from "../../state/visit-state";
import type { RecordOutline } from "../../worker/messages";

type Props = { readonly read: ReadRecord; readonly locale: string | null };

/** The record in a sentence: rows, files, length. */
export function sayRecord(outline: RecordOutline, units: UnitChoice): string {
  return RECORD_WORDS.record(outline.rows.accepted, outline.files.length, formatQuantity(outline.duration, "time", units, 2), units.locale);
}

/** When the record begins and ends, in whose time, and how its clock was read. */
export function RecordClock({ read, locale }: Props) {
  const { clock, duration } = read.outline;
  const intervals = read.traces.filter((trace) => trace.interval !== null);
  return (
    <dl className="clock-facts">
      <dt>{RECORD_WORDS.firstRow}</dt>
      <dd>{sayInstant(clock, 0, locale)}</dd>
      <dt>{RECORD_WORDS.lastRow}</dt>
      <dd>{sayInstant(clock, duration, locale)}</dd>
      <dt>{RECORD_WORDS.whoseTime}</dt>
      <dd>{sayClockZone(clock)}</dd>
      {intervals.length === 0 ? null : (
        <>
          <dt>{RECORD_WORDS.oneRowEvery}</dt>
          <dd>{[...new Set(intervals.map((trace) => sayInterval(trace.interval ?? 0, locale)))].join(", ")}</dd>
        </>
      )}
      <dt>{RECORD_WORDS.readOff}</dt>
      <dd>
        {[...new Set(read.layouts.map((layout) => sayClockReading(layout.clock, locale)))].map((sentence) => (
          <bdi key={sentence} className="clock-reading">
            {sentence}
          </bdi>
        ))}
      </dd>
    </dl>
  );
}

/** As an interval is set on a logger: "2 s", "0.5 s", "15 min". */
const sayInterval = (s: number, locale: string | null): string => {
  const [size, unit] = s < 120 ? [s, "s"] : [s / 60, "min"];
  return `${formatOwn(Number(size.toPrecision(3)), locale)}\u202f${unit}`;
};

/** Rows that were not read, by their line in the file, and what was noticed on the way. Nothing is lost silently. */
export function RowsLeftOut({ outline, locale }: { readonly outline: RecordOutline; readonly locale: string | null }) {
  const several = outline.files.length > 1;
  return (
    <>
      <p>{RECORD_WORDS.rows(outline.rows, locale)}</p>
      {outline.rejects.length === 0 ? null : (
        <Disclosure
          summary={outline.rows.rejected > outline.rejects.length ? RECORD_WORDS.showFirst(outline.rejects.length) : RECORD_WORDS.showAll}
        >
          <ol className="rejects">
            {outline.rejects.map((reject) => (
              <li key={`${reject.file}:${reject.row}`}>
                {RECORD_WORDS.line(reject.row, locale)}
                {several ? (
                  <>
                    {RECORD_WORDS.of}
                    <bdi>{reject.file}</bdi>
                  </>
                ) : null}
                : <bdi>{sayRejected(reject, locale)}</bdi>
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
  if (outline.notes.length + faults.length === 0) return <p>{RECORD_WORDS.nothing}</p>;
  return (
    <ul className="reading-notes">
      {outline.notes.map((note) => (
        <li key={JSON.stringify(note)}>
          <bdi>{sayReadingNote(note, locale)}</bdi>
        </li>
      ))}
      {faults.slice(0, MOST_FAULTS).map((fault) => (
        <li key={`${fault.kind} ${fault.channel} ${fault.from}`}>
          {saySpan(outline.clock, fault, locale)}: <bdi>{sayFaultNote(fault.note, locale)}</bdi>
        </li>
      ))}
      {faults.length > MOST_FAULTS ? <li>{RECORD_WORDS.more(faults.length - MOST_FAULTS, locale)}</li> : null}
    </ul>
  );
}

const MOST_FAULTS = 20;
