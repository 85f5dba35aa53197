import { csvCell } from "../../shared/record/csv-cell";
import type { FindingsDocument, Instant, MeasuredField } from "../../shared/schemas/findings-document";
import { IN_EVENTS } from "../../shared/wording/report";

type Event = {
  readonly event: string;
  readonly from: Instant;
  readonly to: Instant;
  readonly channel?: string | null;
  readonly measured?: MeasuredField;
  readonly unit?: string;
  readonly note?: string;
};

const secondsOf = (instant: Instant): number => (typeof instant === "string" ? Date.parse(instant) / 1000 : instant);

/** Found elsewhere in the document with more to say. */
const TOLD_BEFORE: readonly string[] = ["cycling", "short-cycles", "oscillation", "drift"];

/** All that happened in a record, in the order of its beginning. */
function eventsOf(document: FindingsDocument): readonly Event[] {
  const short = new Set(document.cycling.shortCycle.runs);
  const runs = document.running.runs.map(
    (run, i): Event => ({
      event: short.has(i) ? IN_EVENTS.shortRun : IN_EVENTS.run,
      ...run,
      note: run.complete ? "" : IN_EVENTS.cut,
    }),
  );
  const waves = document.oscillation.episodes.map(
    (e): Event => ({
      event: IN_EVENTS.oscillation,
      from: e.from,
      to: e.to,
      channel: e.channel,
      measured: e.peakToPeakPa,
      unit: IN_EVENTS.crestToTrough,
      note: IN_EVENTS.wave(e.periodS?.value ?? null, e.drivenBy),
    }),
  );
  const drifts = document.drift.windows.map(
    (w): Event => ({
      event: IN_EVENTS.steadyFlow,
      from: w.from,
      to: w.to,
      measured: w.changePa,
      unit: IN_EVENTS.ofDrift,
      note: w.over ? IN_EVENTS.over : "",
    }),
  );
  const others = document.findings
    .filter(({ kind }) => !TOLD_BEFORE.includes(kind))
    .flatMap(({ kind, title, places }) => places.map((place): Event => ({ event: kind, ...place, note: title })));
  const faults = document.record.faults.map((f): Event => ({ event: IN_EVENTS.logFault(f.kind), ...f }));
  return [...runs, ...waves, ...drifts, ...others, ...faults].toSorted((a, b) => secondsOf(a.from) - secondsOf(b.from));
}

/**
 * All events of a record as CSV, one a row: runs, short runs, oscillations, steady flow with its drift, places of other findings, faults of
 * the log. Instants as in the findings document, values SI; no cell begins as a formula.
 */
export function eventsCsv(document: FindingsDocument): string {
  const lines = eventsOf(document).map(({ event, from, to, channel, measured, unit, note }) => [
    event,
    String(from),
    String(to),
    String(Number((secondsOf(to) - secondsOf(from)).toFixed(3))),
    channel ?? "",
    ...[measured?.value, measured?.low, measured?.high].map((value) => (value === undefined ? "" : String(value))),
    unit ?? "",
    note ?? "",
  ]);
  return [IN_EVENTS.headings, ...lines]
    .map((cells) => `${cells.map((cell, i) => (isNumber(i) ? cell : csvCell(cell))).join(",")}\r\n`)
    .join("");
}

/** Numbers may begin with a minus: a spreadsheet must take them for numbers, and they can be nothing else. */
const isNumber = (column: number): boolean => [3, 5, 6, 7].includes(column);
