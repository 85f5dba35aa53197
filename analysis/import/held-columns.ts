import type { Samples } from "./body/row-store";
import { FEWEST_CHANGES, hasDeadBand, hasGrown } from "./dead-band";

/**
 * How the cells of a column came to be: `held`, written when the value changed, so that a blank is the value before it; `each`, written whatever it was; or too few to tell.
 */
export type CellSign = "held" | "each" | "few";

/** That hardly a cell repeats the one before would come so rarely by chance, of a value that comes back to few levels. */
const BY_CHANCE = 0.005;
/** Of few changes only a column that is mostly blank is believed: a short table may hold any pattern. */
const MOSTLY_BLANK = 0.5;
/** Cells that repeat all the same, as after a time in which the logger was off: one, or so many of all. */
const MOST_REPEATS = 0.02;
/** Values are counted up to so many different ones: beyond, none comes back often enough. */
const MOST_LEVELS = 500;
/** Fewer changes over long blanks show nothing of whether values went on meanwhile; long is so much longer than the usual. */
const FEWEST_FAR = 20;
const FAR = 1.5;
/** At one interval, nearly throughout, it is the clock that writes: as rows stray within their scan. */
const SAME = 0.1;
const MOST_SAME = 0.9;
/** A leap after long stillness is great on change too; the least changes over long blanks are not. */
const LEAST = [0.05, 0.1, 0.25];
/** Whole rows may be heartbeats, which repeat what stood: they are left out where so many other rows have the column. */
const ENOUGH_OTHERS = 8;

/**
 * Tells blanks of a logger on change, which mean "as before", from missing values. Who writes a cell because it changed never writes the same again, and
 * nothing nearer than its dead band; who samples and loses cells writes small changes at least as often as great ones, and greater ones over the longer
 * blanks. Null where no column has blanks. Times [n], s; columns [n] each.
 */
export function signsOfCells(timesOfRows: () => Float64Array, columns: readonly Samples[]): readonly CellSign[] | null {
  if (columns.length < 2 || !columns.some(hasBlanks)) return null;
  const times = timesOfRows();
  const isWhole = Uint8Array.from(times, (_, i) => (columns.some((column) => Number.isNaN(column[i])) ? 0 : 1));
  return columns.map((column) => {
    const others = isWhole.reduce((sum, whole, i) => sum + (whole === 0 && !Number.isNaN(column[i]) ? 1 : 0), 0);
    const mayBeat = (row: number) => others >= ENOUGH_OTHERS && isWhole[row] === 1;
    return signOf(column.length, changesOf(times, column, mayBeat));
  });
}

/** Changes from one filled cell of a column to the next that may be no heartbeat, and the time between, s; how often each value came, null where there are too many. */
type Changes = { readonly sizes: number[]; readonly apart: number[]; readonly levels: ReadonlyMap<number, number> | null };

function changesOf(times: Float64Array, column: Samples, mayBeat: (row: number) => boolean): Changes {
  const [sizes, apart, levels]: [number[], number[], Map<number, number>] = [[], [], new Map()];
  let last = -1;
  for (let i = 0; i < column.length; i++) {
    const value = column[i];
    if (Number.isNaN(value)) continue;
    if (levels.size <= MOST_LEVELS) levels.set(value, (levels.get(value) ?? 0) + 1);
    if (last >= 0 && !mayBeat(i)) {
      sizes.push(Math.abs(value - column[last]));
      apart.push(times[i] - times[last]);
    }
    last = i;
  }
  return { sizes, apart, levels: levels.size <= MOST_LEVELS ? levels : null };
}

function signOf(rows: number, { sizes, apart, levels }: Changes): CellSign {
  const repeats = sizes.filter((size) => size === 0).length;
  if (repeats > Math.max(1, MOST_REPEATS * sizes.length)) return "each";
  const comesBack = levels !== null && chanceOfRepeats(repeats, sizes.length, [...levels.values()]) < BY_CHANCE;
  const isSparse = sizes.length < MOSTLY_BLANK * rows;
  if (sizes.length < FEWEST_CHANGES && !(comesBack && isSparse)) return repeats > 0 ? "each" : "few";
  if (wentOn(sizes, apart)) return "each";
  return comesBack || hasDeadBand(Float64Array.from(sizes).sort(), Float64Array.of()) ? "held" : "each";
}

/** Chance of so few repeats among cells in an order of chance: one is the same as the next with the sum of p² over the shares p of the levels. */
function chanceOfRepeats(repeats: number, cells: number, counts: readonly number[]): number {
  const all = counts.reduce((sum, count) => sum + count, 0);
  const same = counts.reduce((sum, count) => sum + (count / all) ** 2, 0);
  let [term, chance] = [(1 - same) ** cells, 0];
  for (let k = 0; k <= repeats; k++) {
    chance += term;
    term *= (((cells - k) / (k + 1)) * same) / (1 - same);
  }
  return chance;
}

/** Whether the value went on while it was not written: it moved more over long blanks, or there are next to none and the clock wrote it. */
function wentOn(sizes: readonly number[], apart: readonly number[]): boolean {
  const usual = Float64Array.from(apart).sort()[apart.length >> 1];
  const pick = (isWanted: (time: number) => boolean) => Float64Array.from(sizes.filter((_, k) => isWanted(apart[k]))).sort();
  const far = pick((time) => time > FAR * usual);
  const near = pick((time) => time <= FAR * usual);
  if (far.length >= FEWEST_FAR) return LEAST.every((share) => hasGrown(far, near, share));
  return apart.filter((time) => Math.abs(time - usual) < SAME * usual).length > MOST_SAME * apart.length;
}

/** Whether of a thousand cells all over the column some are blank. */
function hasBlanks(column: Samples): boolean {
  const stride = Math.max(1, Math.floor(column.length / 997));
  for (let i = 0; i < column.length; i += stride) if (Number.isNaN(column[i])) return true;
  return false;
}
