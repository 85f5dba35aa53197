import type { Sampling } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import type { Samples } from "./body/row-store";
import { findHeartbeat, findRhythm, type Rhythm } from "./find-on-change";
import { signsOfCells } from "./held-columns";

/** How the rows of a table came to be, and which of its columns hold their last value in a blank. `held` [columns]. */
export type RowRhythm = { readonly rhythm: Rhythm; readonly held: readonly boolean[] };

/** What a column brings: its values in SI [rows], whether its file says that it writes on change, whether it marks missing values by words. */
export type RhythmColumn = { readonly values: Samples; readonly saysOnChange: boolean; readonly marksMissing: boolean };

/**
 * By what the file says of itself, by its blanks, else by its instants and values. Where every column writes a cell only when its value changed, so do the
 * rows. A column that does so among others that are sampled leaves the rows to these.
 */
export function findRowRhythm(sampling: Sampling, times: () => Float64Array, columns: readonly RhythmColumn[]): RowRhythm {
  const signs = columns.some(({ marksMissing }) => marksMissing)
    ? null
    : signsOfCells(
        times,
        columns.map(({ values }) => values),
      );
  const sampled = columns.filter((_, c) => signs?.[c] === "each");
  const allHeld = signs?.includes("held") === true && sampled.length === 0;
  const held = columns.map((_, c) => allHeld || signs?.[c] === "held");
  // rows at one step throughout leave nothing to a word about changes
  if (sampling.kind === "even") return { rhythm: { kind: "sampled" }, held };
  if (columns.some(({ saysOnChange }) => saysOnChange)) return { rhythm: { kind: "on-change", heartbeat: null }, held };
  if (allHeld) return { rhythm: { kind: "on-change", heartbeat: findHeartbeat(times()) }, held };
  const telling = signs?.includes("held") === true ? sampled : columns;
  return {
    rhythm: findRhythm(
      times(),
      telling.map(({ values }) => values),
    ),
    held,
  };
}

/** Instants of a channel that holds until the next, within the rows of its file; both s. */
export const heldAt = (times: Float64Array, rows: Float64Array): Sampling => ({
  kind: "on-change",
  times,
  until: seconds(rows[rows.length - 1]),
  rows,
});

/**
 * A column by the cells that are filled, each of which holds until the next; null where all are, or none. Times of the rows [n], s; values [n].
 */
export function heldColumn(times: Float64Array, values: Samples): { readonly sampling: Sampling; readonly values: Samples } | null {
  const filled = values.filter((value) => !Number.isNaN(value));
  if (filled.length === values.length || filled.length === 0) return null;
  const own = times.filter((_, i) => !Number.isNaN(values[i]));
  return { sampling: heldAt(own, times), values: filled };
}
