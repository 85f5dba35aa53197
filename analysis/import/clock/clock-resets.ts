import type { ImportQuestion } from "../../../shared/record/import-question";
import { refused } from "./clock-hints";
import type { ClockLedger } from "./clock-ledger";
import { medianStep } from "./median-step";

const DAY = 86400;
/** So far apart one of two stretches has a wrong clock where one begins at a factory date; without that sign a silence must be longer still. */
const APART = 400 * DAY;
const FAR_APART = 1100 * DAY;
/** So few rows are not worth a question: they fit a hole or are left out. */
const FEW = 2;
const OPTIONS = ["follow-on", "leave-out"] as const;

/** Rows between two leaps of the clock. */
type Stretch = {
  readonly from: number;
  /** One past its last row. */
  readonly to: number;
  readonly rows: number;
  readonly first: number;
  readonly last: number;
  readonly low: number;
  readonly high: number;
  /** It begins where a clock starts that has lost its time: at the turn of a year, or at a midnight years back. */
  readonly factory: boolean;
};

/**
 * Mends, in place, a clock that fell back to its factory date or leapt years ahead. The dates where most rows stand are believed; the others are
 * placed by the sampling where it goes on unbroken, else rejected. A place that only may be right is asked.
 * @param times Unix s, file order (oldest first), shape [n]     @param east how far the logger's own clock is ahead of UTC, s     @param answer the person's choice, "follow-on" or "leave-out"
 */
export function mendResets(times: Float64Array, east: number, answer: string | null, ledger: ClockLedger): void {
  const stretches = findStretches(times, east);
  if (stretches.length < 2) return;
  const wrong = wrongStretches(stretches);
  if (!wrong.includes(true)) return;
  if (answer !== null && !OPTIONS.some((option) => option === answer)) throw refused("clock", answer, OPTIONS);
  const step = medianStep(times);
  let doubtful = false;
  for (let k = 0; k < stretches.length; k++) {
    if (!wrong[k]) continue;
    let end = k;
    while (end + 1 < stretches.length && wrong[end + 1]) end++;
    const placed = place(times, stretches, k, end, step, answer);
    report(placed, stretches[k], times, stretches, k, end, ledger);
    doubtful ||= placed !== "fits" && rowsOf(stretches, k, end) > FEW;
    k = end;
  }
  if (doubtful && answer === null) ledger.questions.push(resetQuestion(stretches[wrong.indexOf(true)]));
}

/** Cuts the rows where the clock leaps forward by years, or falls back by more than a day or to the first hour of a year. */
function findStretches(times: Float64Array, east: number): Stretch[] {
  const found: Stretch[] = [];
  let from = -1;
  let [first, last, low, high, rows, back] = [0, 0, 0, 0, 0, 0];
  const close = (to: number) =>
    found.push({
      from,
      to,
      rows,
      first,
      last,
      low,
      high,
      factory: isFactoryDate(low + east) || (back > APART && isMidnight(first + east)),
    });
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    if (from >= 0 && (t - last > APART || last - t > DAY || (last - t > 600 && isFactoryDate(t + east)))) {
      close(i);
      back = last - t;
      from = -1;
    }
    if (from < 0) {
      from = i;
      first = t;
      low = t;
      high = t;
      rows = 0;
    }
    rows++;
    last = t;
    if (t < low) low = t;
    if (t > high) high = t;
  }
  if (from >= 0) close(times.length);
  return found;
}

/** The turn of a year: where a clock starts that has lost its time. An hour either way, for summer time. */
function isFactoryDate(local: number): boolean {
  const at = new Date((local + 3600) * 1000);
  return at.getUTCMonth() === 0 && at.getUTCDate() === 1 && at.getUTCHours() < 3;
}

/** The first quarter of an hour of a day. */
const isMidnight = (local: number) => local - Math.floor(local / DAY) * DAY < 900;

/** Which stretches the others contradict: groups of stretches that stand near each other in time, the group of most rows is right. */
function wrongStretches(stretches: readonly Stretch[]): boolean[] {
  const byTime = stretches.map((_, k) => k).sort((a, b) => stretches[a].low - stretches[b].low);
  const group = new Array<number>(stretches.length).fill(0);
  let [count, reach] = [0, Number.NEGATIVE_INFINITY];
  let factory: boolean = false;
  for (const k of byTime) {
    const sign = stretches[k].factory;
    const isolated: boolean = stretches[k].low - reach > (sign || factory ? APART : FAR_APART);
    factory = isolated ? sign : factory;
    if (isolated && reach > Number.NEGATIVE_INFINITY) count++;
    group[k] = count;
    reach = Math.max(isolated ? Number.NEGATIVE_INFINITY : reach, stretches[k].high);
  }
  const weight = new Float64Array(count + 1);
  for (const [k, s] of stretches.entries()) weight[group[k]] += s.rows;
  for (let g = 0; g <= count; g++) {
    const first = byTime.find((k) => group[k] === g);
    // a group that begins at a factory date is believed only where next to nothing speaks against it
    if (first !== undefined && stretches[first].factory) weight[g] *= 0.02;
  }
  const main = weight.indexOf(weight.reduce((a, b) => Math.max(b, a)));
  return stretches.map(
    (s, k) => group[k] !== main || (k > 0 && s.first < stretches[k - 1].last - DAY && s.factory && s.rows < weight[main] / 2),
  );
}

const rowsOf = (stretches: readonly Stretch[], k: number, end: number) => stretches.slice(k, end + 1).reduce((n, s) => n + s.rows, 0);

type Placing = "fits" | "guessed" | "refused";

/** Moves the wrong stretches k to end, one after the other, behind the rows before them or up to the rows after them. */
function place(times: Float64Array, stretches: readonly Stretch[], k: number, end: number, step: number, answer: string | null): Placing {
  if (answer === "leave-out") return "refused";
  const before = stretches[k - 1]?.last ?? Number.NaN;
  const after = stretches[end + 1]?.first ?? Number.NaN;
  let length = step * (end - k);
  for (let s = k; s <= end; s++) {
    if (!isRegular(times, stretches[s], step)) return "refused";
    length += stretches[s].high - stretches[s].low;
  }
  const hole = after - before - 2 * step;
  const fits = Math.abs(hole - length) <= Math.max(2 * step, 1e-3 * length);
  if (!fits && rowsOf(stretches, k, end) <= FEW) return "refused";
  if (!Number.isNaN(hole) && !fits && hole < length) return "refused";
  // set right by a person while it ran: the rows reach up to those that follow; nothing follows: they go on behind those before
  let at = fits ? before + step : Number.isNaN(after) ? before + step : after - step - length;
  for (let s = k; s <= end; s++) {
    const shift = at - stretches[s].low;
    for (let i = stretches[s].from; i < stretches[s].to; i++) times[i] += shift;
    at += stretches[s].high - stretches[s].low + step;
  }
  return fits ? "fits" : "guessed";
}

/** Rows come at the same step as in the rest of the log. */
function isRegular(times: Float64Array, { from, to, rows }: Stretch, step: number): boolean {
  if (rows < 3) return true;
  const own = medianStep(times.subarray(from, to));
  return Math.abs(own - step) <= 0.05 * step;
}

function report(
  placed: Placing,
  bad: Stretch,
  times: Float64Array,
  stretches: readonly Stretch[],
  k: number,
  end: number,
  ledger: ClockLedger,
): void {
  const near = stretches[k - 1]?.last ?? stretches[end + 1]?.first ?? 0;
  const rows = rowsOf(stretches, k, end);
  const note = { kind: "leaps-to", at: bad.first, rows } as const;
  if (placed === "refused") {
    for (let i = bad.from; i < stretches[end].to; i++) {
      if (Number.isNaN(times[i])) continue;
      ledger.rejected.push({ row: i, why: { kind: "clock-wrong", at: times[i] } });
      times[i] = Number.NaN;
    }
    ledger.faults.push({ kind: "clock-reset", from: near, to: stretches[end + 1]?.first ?? near, note: { ...note, isRefused: true } });
  } else
    ledger.faults.push({
      kind: "clock-reset",
      from: times[bad.from],
      to: lastOf(times, stretches[end]),
      note: { ...note, isRefused: false },
    });
  ledger.notes.push({ kind: "clock-reset", at: bad.first, rows, placed });
}

function lastOf(times: Float64Array, { to }: Stretch): number {
  let i = to - 1;
  while (Number.isNaN(times[i])) i--;
  return times[i];
}

const resetQuestion = (bad: Stretch): ImportQuestion => ({
  id: "clock",
  asks: { kind: "leaps-to", at: bad.first, rows: bad.rows },
  options: OPTIONS,
  assumed: OPTIONS[0],
});
