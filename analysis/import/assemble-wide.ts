import type { ImportQuestion } from "../../shared/record/import-question";
import type { Channel, Sampling } from "../../shared/record/log-record";
import { sampleCount, timeAt, timesOf } from "../../shared/record/sampling";
import { seconds } from "../../shared/units/quantity";
import type { ReadingNote } from "../../shared/wording/reading-note";
import type { RowLog } from "./body/row-log";
import type { RowStore, Samples } from "./body/row-store";
import type { SettledClock } from "./clock/clock-reading";
import { settleClock } from "./clock/settle-clock";
import { settleEven } from "./clock/settle-even";
import type { ColumnReading } from "./columns/column-reading";
import { findSignalFaults } from "./columns/signal-faults";
import { deriveFlow } from "./derive-flow";
import type { FilePart } from "./file-part";
import type { Rhythm } from "./find-on-change";
import { findGaps, findSampling } from "./find-sampling";
import type { ImportChoices, LogFile } from "./import-log";
import { findRowRhythm, heldColumn } from "./row-rhythm";
import { findSlowChannel } from "./slow-channel";
import type { PlannedColumn, TablePlan } from "./table-plan";

/** What is known of a file beside its rows. */
export type KnownFile = {
  readonly file: LogFile;
  readonly plan: TablePlan;
  readonly questions: readonly ImportQuestion[];
  readonly layout: FilePart["layout"];
  readonly choices: ImportChoices;
  /** Marks of missing values that were found late. */
  readonly marks: readonly ReadingNote[];
};

/** Rows of a table with a column a channel, put in order of time. */
export function assembleWide(known: KnownFile, store: RowStore, log: RowLog): FilePart {
  const { file, plan, questions, choices } = known;
  const numbers = plan.columns.filter((column) => column.use === "number");
  const marks = [...numbers.flatMap(sentinelNotes), ...known.marks];
  const { settled, times, even } = settle(store, plan, choices, log.sections);
  const { order } = settled;
  const values = numbers.map((_, i) => inOrder(store.values[i], store.count, order));
  const signals = numbers.flatMap(({ reading, heading }, i) =>
    reading.raw === null ? [] : findSignalFaults(values[i], times(), reading, heading),
  );
  const plainSampling = even ?? findSampling(times(), null);
  const { rhythm, held } = findRowRhythm(
    plainSampling,
    times,
    numbers.map(({ reading, marksMissing }, i) => ({ values: values[i], saysOnChange: reading.onChange, marksMissing })),
  );
  const sampling = rhythm.kind === "sampled" ? plainSampling : findSampling(times(), rhythm);
  const [slower, holding]: [string[], string[]] = [[], []];
  const channels = numbers.map(({ heading, index, reading }, i) => {
    const slow = rhythm.kind === "sampled" && !numbers[i].marksMissing ? findSlowChannel(times, values[i]) : null;
    if (slow !== null) slower.push(heading);
    const own = slow ?? (held[i] ? heldColumn(times(), values[i]) : null);
    if (own !== null && slow === null) holding.push(heading);
    return makeChannel(heading, index, reading, own?.sampling ?? sampling, own?.values ?? values[i]);
  });
  const flows = channels.some(({ role }) => role === "flow")
    ? []
    : channels.flatMap((channel, i) => deriveFlow(channel, numbers[i].reading) ?? []);
  const count = sampleCount(sampling);
  const rejects = settled.rejected.map(({ row, why }) => ({ file: file.name, row: store.lines.at(row), why, text: null }));
  return {
    ...partOf(known, log),
    clock: settled.clock,
    dateOrder: settled.dateOrder,
    duration: even === null ? (times()[count - 1] ?? 0) : timeAt(even, count - 1),
    channels: [...channels, ...flows.map(({ channel }) => channel)],
    columns: columnNotes(plan),
    origins: [{ file: file.name, sampling, lines: store.lines.lines(order) }],
    rows: {
      accepted: count,
      rejected: log.rejected + rejects.length,
      duplicate: settled.duplicates,
      reordered: settled.reordered,
    },
    rejects: [...log.rejects, ...rejects].sort((a, b) => a.row - b.row).slice(0, 100),
    questions: [...questions, ...settled.questions],
    notes: [
      ...settled.notes,
      ...plan.notes,
      ...marks,
      ...flows.map(({ note }) => note),
      ...rhythmNote(rhythm),
      ...slowNote(slower),
      ...(holding.length === 0 ? [] : [{ kind: "held-blanks" as const, headings: holding }]),
      ...log.notes(),
    ],
    faults: [
      ...settled.faults,
      ...signals,
      ...(sampling.kind === "even" ? [] : findGaps(times(), rhythm)),
      ...(plan.devices === null ? restarts(log.restarts, times, count, order) : []),
    ],
  };
}

type Settled = {
  readonly settled: Omit<SettledClock, "times">;
  /** Instants, s; made when they are first asked for. */
  readonly times: () => Float64Array;
  /** The sampling where the rows stand evenly and nothing was wrong with the clock. */
  readonly even: Sampling | null;
};

/** Rows at one step need no look at each; the others do. */
function settle(store: RowStore, { clock }: TablePlan, choices: ImportChoices, sections: RowLog["sections"]): Settled {
  const steps = clock.kind === "counted" ? { first: 0, step: clock.interval ?? 1 } : store.times.even();
  const even = steps === null || store.count < 2 ? null : settleEven(steps, store.count, clock);
  if (even !== null) {
    let made: Float64Array | null = null;
    return { settled: even, times: () => (made ??= timesOf(even.sampling)), even: even.sampling };
  }
  const settled = settleClock(store.times.all(), clock, choices, { alike: (row, other) => store.alike(row, other), sections });
  return { settled, times: () => settled.times, even: null };
}

function slowNote(headings: readonly string[]): FilePart["notes"] {
  return headings.length === 0 ? [] : [{ kind: "slow-channel", headings }];
}

/** Every column of the file, used or not. */
export const columnNotes = (plan: TablePlan): FilePart["columns"] =>
  plan.columns.map(({ heading, index, reading, use }) => ({
    heading,
    index,
    role: use === "time" ? "time" : use === "text" && reading.role !== "time" ? "other" : reading.role,
    unit: reading.unit,
  }));

function rhythmNote(rhythm: Rhythm): FilePart["notes"] {
  if (rhythm.kind === "sampled") return rhythm.unsure ? [{ kind: "rhythm-not-plain" }] : [];
  return [{ kind: "on-change", heartbeat: rhythm.heartbeat === null ? null : Number(rhythm.heartbeat.toPrecision(3)) }];
}

const sentinelNotes = ({ heading, reading }: PlannedColumn): FilePart["notes"] =>
  reading.sentinels.map((mark) => ({ kind: "sentinel", mark, heading }));

/** The parts of a FilePart that no clock touches. */
export const partOf = ({ file, layout }: KnownFile, _log: RowLog): Pick<FilePart, "file" | "layout"> => ({
  file: { name: file.name, bytes: file.bytes, sha256: file.sha256 },
  layout,
});

export function makeChannel(heading: string, index: number, reading: ColumnReading, sampling: Sampling, values: Samples): Channel {
  const { role, position, unit, quantity, certainty, reason } = reading;
  return { heading, index, role, position, unitInFile: unit, quantity, sampling, values, certainty, reason };
}

/** Room left over in a buffer, as a share, that is not worth a copy. */
const SPARE = 0.1;

/** The kept rows in order of time; the very buffer where all are kept. */
export function inOrder(values: Samples, count: number, order: SettledClock["order"]): Samples {
  if (order === null) return count >= values.length * (1 - SPARE) ? values.subarray(0, count) : values.slice(0, count);
  const sorted = values instanceof Float64Array ? new Float64Array(order.length) : new Float32Array(order.length);
  for (let i = 0; i < order.length; i++) sorted[i] = values[order[i]];
  return sorted;
}

/** Where the headings were written again: the logger was started anew. Only where the rows stand in their order. */
function restarts(rows: readonly number[], times: () => Float64Array, count: number, order: SettledClock["order"]): FilePart["faults"] {
  if (order !== null) return [];
  return rows.flatMap((row) =>
    row > 0 && row < count
      ? [
          {
            kind: "restart" as const,
            channel: null,
            from: seconds(times()[row - 1]),
            to: seconds(times()[row]),
            note: { kind: "headings-again" },
          },
        ]
      : [],
  );
}
