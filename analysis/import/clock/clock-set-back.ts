import type { ImportQuestion } from "../../../shared/record/import-question";
import { refused } from "./clock-hints";
import type { ClockLedger } from "./clock-ledger";
import { medianStep } from "./median-step";

/** Whether two rows, counted as the times are, carry the same values. */
export type Alike = (row: number, other: number) => boolean;

const HOUR = 3600;
const MOST_BETWEEN_ZONES = 14 * HOUR; // the easternmost zone from UTC
const MOST = 50;
/** Fewer rows in common are late rows or repeated ones, unless the rows show that the clock went on from there. */
const LEAST = 4;
/** A step back to the very beginning of the log, as a share of what went before, is rather a second log in the same file. */
const BEGINNING = 0.02;
const OPTIONS = ["follow-on", "set-right", "as-written"] as const;
type Option = (typeof OPTIONS)[number];

/**
 * A clock that was set back while the log ran on makes two stretches of rows claim the same time: none of them is a repeated row. The order of the
 * rows in the file shows how they follow each other; which stretch has the right time it does not show, so that is asked. A stretch with the same
 * instants and values is a copy, a late row or a block in the wrong place fills a hole: both are left to the sorting.
 * @param times s, file order (oldest first), shape [n]; changed in place     @param answer the person's choice
 */
export function followSetBack(times: Float64Array, alike: Alike, answer: string | null, ledger: ClockLedger): void {
  const step = medianStep(times);
  const steps = findSteps(times, alike, step, ledger);
  if (steps.length === 0) return;
  const assumed: Option = steps.every(({ toBeginning }) => toBeginning) ? "as-written" : "follow-on";
  const chosen = answer === null ? assumed : OPTIONS.find((option) => option === answer);
  if (chosen === undefined) throw refused("clock", answer ?? "", OPTIONS);
  if (chosen !== "as-written") moveOn(times, steps, step, chosen === "set-right");
  for (const { at, by, rows } of steps) {
    const zone = isBetweenZones(by + step, step);
    const note = { kind: "set-back", by: Math.round(by + (zone ? step : 0)), isZone: zone } as const;
    const [from, to] = [times[at - 1], times[at]].sort((a, b) => a - b);
    ledger.faults.push({ kind: zone ? "zone-slip" : "clock-jump", from, to, note });
    ledger.notes.push({ kind: "set-back", at: times[at - 1], by: Math.round(by), rows, answer: chosen });
  }
  if (answer === null) ledger.questions.push(setBackQuestion(steps, assumed));
}

/** Whole, half or quarter hours to the sample, as zones lie apart (IANA time zone database), where sampling is fine enough for that to be no chance. */
const isBetweenZones = (by: number, step: number): boolean =>
  [HOUR, HOUR / 2, HOUR / 4].some((unit) => step <= unit / 12 && by >= unit / 2 && Math.abs(by - Math.round(by / unit) * unit) <= step / 2);

/** A step back of the clock before row `at`: by how much, s, and how many rows after it claim a time that is taken. */
type SetBack = { readonly at: number; readonly by: number; readonly rows: number; readonly toBeginning: boolean };

function findSteps(times: Float64Array, alike: Alike, step: number, ledger: ClockLedger): readonly SetBack[] {
  const found: SetBack[] = [];
  let [high, last, first, falls] = [Number.NEGATIVE_INFINITY, Number.NaN, Number.NaN, 0];
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    if (Number.isNaN(first)) first = t;
    if (t < last) falls++;
    if (t < last && t < high && falls <= MOST) {
      const overlap = overlapAt(times, i, high, step, alike) ?? zoneBack(times, i, last, step);
      if (overlap?.copy) {
        ledger.faults.push({ kind: "clock-jump", from: t, to: overlap.to, note: { kind: "stretch-twice" } });
        ledger.notes.push({ kind: "stretch-twice", rows: overlap.rows });
      } else if (overlap !== null) {
        found.push({ at: i, by: last - t, rows: overlap.rows, toBeginning: Math.abs(t - first) <= BEGINNING * (high - first) });
        // the clock goes on from here: what stands above is the past of another setting
        high = t;
      }
    }
    if (t > high) high = t;
    last = t;
  }
  // Rows that go back again and again are out of order, whatever some of them look like.
  return falls > 2 * found.length ? [] : found;
}

/** A step back by whole quarter hours to before the log begins, after which the rows go on at their usual step: a clock put to another season or zone by hand. */
function zoneBack(
  times: Float64Array,
  i: number,
  last: number,
  step: number,
): { readonly rows: number; readonly to: number; readonly copy: boolean } | null {
  const by = last + step - times[i];
  if (!(by <= MOST_BETWEEN_ZONES && isBetweenZones(by, step))) return null;
  let end = i;
  while (end + 1 < times.length && Math.abs(times[end + 1] - times[end] - step) <= step / 2) end++;
  const rows = end - i + 1;
  return rows < LEAST || endsWhereOneBegins(times, i, end, step) ? null : { rows, to: times[end], copy: false };
}

/** A block in the wrong place ends where another begins: that of the first rows, or one before which the rows above leave just the room that it needs. */
function endsWhereOneBegins(times: Float64Array, i: number, end: number, step: number): boolean {
  let [before, after] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const t of times.subarray(0, i)) {
    if (t < times[i] && t > before) before = t;
    if (t >= times[i] && t < after) after = t;
  }
  const meets = Math.abs(times[end] + step - after) <= step;
  return meets && (before === Number.NEGATIVE_INFINITY || Math.abs(before + step - times[i]) <= step);
}

/** The rows from i on that stand in time among those just before; null where they fill a hole or are a few only. */
function overlapAt(
  times: Float64Array,
  i: number,
  high: number,
  step: number,
  alike: Alike,
): { readonly rows: number; readonly to: number; readonly copy: boolean } | null {
  let end = i;
  while (end + 1 < times.length && times[end + 1] > times[end] && times[end + 1] <= high) end++;
  let start = i - 1;
  while (start > 0 && times[start - 1] >= times[i] && times[start - 1] < times[start]) start--;
  let [among, equal, same, k] = [0, 0, 0, i];
  for (let j = start; j < i && times[j] <= times[end]; j++) {
    if (times[j] < times[i]) continue;
    among++;
    while (k < end && times[k] < times[j]) k++;
    if (times[k] !== times[j]) continue;
    equal++;
    if (alike(j, k)) same++;
  }
  const rows = end - i + 1;
  if ((rows < LEAST || among < LEAST) && (same > 0 || !goesOn(times, i, end, step))) return null;
  return { rows, to: times[end], copy: equal >= 0.9 * Math.min(rows, among) && same >= 0.9 * equal };
}

/** The rows from i on come at the usual step, past those before them: a late row is followed by the one that was to be next. */
function goesOn(times: Float64Array, i: number, end: number, step: number): boolean {
  const last = Math.min(end + 2, times.length - 1);
  if (last <= end) return false;
  for (let k = i; k < last; k++) if (!(Math.abs(times[k + 1] - times[k] - step) <= 0.02 * step)) return false;
  return true;
}

/** All rows in the order of the file, each setting of the clock beginning one step after the end of the one before. */
function moveOn(times: Float64Array, steps: readonly SetBack[], step: number, lastIsRight: boolean): void {
  const all = steps.reduce((sum, { by }) => sum + by + step, 0);
  let [shift, next] = [lastIsRight ? -all : 0, 0];
  for (let i = 0; i < times.length; i++) {
    if (i === steps[next]?.at) shift += steps[next++].by + step;
    times[i] += shift;
  }
}

const setBackQuestion = (steps: readonly SetBack[], assumed: Option): ImportQuestion => ({
  id: "clock",
  asks: { kind: "set-back", by: steps.map(({ by }) => Math.round(by)) },
  options: OPTIONS,
  assumed,
});
