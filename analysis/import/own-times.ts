import type { ClockReading } from "./clock/clock-reading";
import type { ColumnText } from "./columns/column-reading";
import type { PlannedColumn } from "./table-plan";

/** A time column and the columns of numbers that go by it. */
export type TimedGroup = { readonly time: number; readonly columns: readonly number[] };

const ENDING = /\b(?:end|stop|until|to|bis|ende|fin|fine|einde|hasta)\b/i;

/**
 * Groups of columns that each have instants of their own, side by side in one table ("Time,Pressure,Time,Flow"). Null where there is one time for all:
 * a second time column that always says the same, that has no numbers behind it, or that names an end.
 */
export function findOwnTimes(
  texts: readonly ColumnText[],
  columns: readonly PlannedColumn[],
  clock: ClockReading,
): readonly TimedGroup[] | null {
  if (clock.columns.length !== 1) return null;
  const [first] = clock.columns;
  const times = texts.filter(
    (text) => text.index === first || (!ENDING.test(text.heading) && columns[text.index].use !== "number" && isTime(text, clock)),
  );
  if (times.length < 2 || times[0].index !== first) return null;
  const groups = times.map(({ index }, i): TimedGroup => {
    const end = times[i + 1]?.index ?? texts.length;
    return {
      time: index,
      columns: columns
        .filter((column) => column.use === "number" && (i === 0 || column.index > index) && column.index < end)
        .map((column) => column.index),
    };
  });
  const differ = times.slice(1).some((text) => text.sample.some((cell, row) => cell !== texts[first].sample[row]));
  return differ && groups.every((group) => group.columns.length > 0) ? groups : null;
}

function isTime({ sample }: ColumnText, clock: ClockReading): boolean {
  const filled = sample.filter((cell) => cell !== "");
  return filled.length > 1 && filled.filter((cell) => !Number.isNaN(clock.parse([cell]))).length >= 0.9 * filled.length;
}
