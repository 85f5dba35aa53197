import type { ImportQuestion } from "../../shared/record/import-question";
import type { Channel, Sampling } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import type { RowLog } from "./body/row-log";
import type { RowStore, Samples } from "./body/row-store";
import type { SettledClock } from "./clock/clock-reading";
import { settleClock } from "./clock/settle-clock";
import type { ColumnReading } from "./columns/column-reading";
import type { FilePart } from "./file-part";
import { findGaps, findSampling } from "./find-sampling";
import type { ImportChoices, LogFile } from "./import-log";
import type { TablePlan } from "./table-plan";

/** What is known of a file beside its rows. */
export type KnownFile = {
  readonly file: LogFile;
  readonly plan: TablePlan;
  readonly questions: readonly ImportQuestion[];
  readonly layout: FilePart["layout"];
  readonly choices: ImportChoices;
};

/** Rows of a table with a column a channel, put in order of time. */
export function assembleWide(known: KnownFile, store: RowStore, log: RowLog): FilePart {
  const { file, plan, questions, choices } = known;
  const settled = settleClock(store.raw.subarray(0, store.count), plan.clock, choices);
  const { times, order } = settled;
  const numbers = plan.columns.filter((column) => column.use === "number");
  const onChange = numbers.some((column) => column.reading.onChange);
  const sampling = findSampling(times, onChange);
  const channels = numbers.map(({ heading, index, reading }, i) =>
    makeChannel(heading, index, reading, sampling, inOrder(store.values[i], store.count, order)),
  );
  const rejects = settled.rejected.map(({ row, why }) => ({ file: file.name, row: store.lines.at(row), why }));
  return {
    ...partOf(known, log),
    clock: settled.clock,
    duration: times[times.length - 1] ?? 0,
    channels,
    columns: plan.columns.map(({ heading, index, reading, use }) => ({
      heading,
      index,
      role: use === "time" ? "time" : use === "text" && reading.role !== "time" ? "other" : reading.role,
      unit: reading.unit,
    })),
    origins: [{ file: file.name, sampling, lines: store.lines.lines(order) }],
    rows: {
      accepted: times.length,
      rejected: log.rejected + rejects.length,
      duplicate: settled.duplicates,
      reordered: settled.reordered,
    },
    rejects: [...log.rejects, ...rejects].sort((a, b) => a.row - b.row).slice(0, 100),
    questions: [...questions, ...settled.questions],
    notes: [...settled.notes, ...log.notes()],
    faults: [...settled.faults, ...(onChange ? [] : findGaps(times)), ...restarts(log.restarts, times, order)],
  };
}

/** The parts of a FilePart that no clock touches. */
export const partOf = ({ file, layout }: KnownFile, _log: RowLog): Pick<FilePart, "file" | "layout"> => ({
  file: { name: file.name, bytes: file.bytes, sha256: file.sha256 },
  layout,
});

export function makeChannel(heading: string, index: number, reading: ColumnReading, sampling: Sampling, values: Samples): Channel {
  const { role, position, unit, quantity, certainty, reason } = reading;
  return { heading, index, role, position, unitInFile: unit, quantity, sampling, values, certainty, reason };
}

/** The kept rows in order of time; the very buffer where all are kept. */
export function inOrder(values: Samples, count: number, order: SettledClock["order"]): Samples {
  if (order === null) return values.length === count ? values : values.slice(0, count);
  const sorted = values instanceof Float64Array ? new Float64Array(order.length) : new Float32Array(order.length);
  for (let i = 0; i < order.length; i++) sorted[i] = values[order[i]];
  return sorted;
}

/** Where the headings were written again: the logger was started anew. Only where the rows stand in their order. */
function restarts(rows: readonly number[], times: Float64Array, order: SettledClock["order"]): FilePart["faults"] {
  if (order !== null) return [];
  return rows.flatMap((row) =>
    row > 0 && row < times.length
      ? [
          {
            kind: "restart" as const,
            channel: null,
            from: seconds(times[row - 1]),
            to: seconds(times[row]),
            note: "the logger wrote its headings again",
          },
        ]
      : [],
  );
}
