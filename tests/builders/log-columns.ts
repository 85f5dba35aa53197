import type { ClockReading, SettledClock } from "../../analysis/import/clock/clock-reading";
import { readClock } from "../../analysis/import/clock/read-clock";
import { settleClock } from "../../analysis/import/clock/settle-clock";
import type { ColumnText, FileContext } from "../../analysis/import/columns/column-reading";
import { type ImportChoices, NO_CHOICES } from "../../analysis/import/import-log";

/** A file's columns from a heading line and rows, cells set apart by "|". */
export function columnsOf(heading: string, rows: readonly string[], units: string | null = null): ColumnText[] {
  const unitCells = units?.split("|");
  const cells = rows.map((row) => row.split("|"));
  return heading.split("|").map((text, index) => ({
    index,
    heading: text.trim(),
    unitsCell: unitCells === undefined ? null : unitCells[index].trim(),
    sample: cells.map((row) => (row[index] ?? "").trim()),
  }));
}

export const contextOf = (preamble: readonly string[] = [], decimal: "." | "," = ".", file = "log.csv"): FileContext => ({
  file,
  preamble,
  decimal,
  thousands: null,
});

export const choicesOf = (answers: Readonly<Record<string, string>>, zone: string | null = null): ImportChoices => ({
  ...NO_CHOICES,
  answers,
  zone,
});

export type ReadBack = {
  readonly reading: ClockReading;
  readonly settled: SettledClock;
  readonly instants: readonly string[];
  readonly asked: readonly string[];
};

/** Reads a clock the way the importer does: finds it, parses every row, settles it. Instants as ISO UTC, or elapsed seconds as text. */
export function readBack(
  columns: readonly ColumnText[],
  context: FileContext = contextOf(),
  choices: ImportChoices = NO_CHOICES,
): ReadBack | null {
  const reading = readClock(columns, context, choices);
  if (reading === null) return null;
  const rows = columns[0].sample.map((_, i) => reading.columns.map((c) => columns[c].sample[i]));
  const settled = settleClock(Float64Array.from(rows, reading.parse), reading, choices);
  const { clock } = settled;
  const instants = Array.from(settled.times, (t) =>
    clock.kind === "elapsed"
      ? String(Math.round(t * 1e6) / 1e6)
      : new Date(Math.round((clock.epoch + t) * 1000)).toISOString().replace(/\.000Z$/, "Z"),
  );
  return { reading, settled, instants, asked: settled.questions.map((q) => q.id) };
}
