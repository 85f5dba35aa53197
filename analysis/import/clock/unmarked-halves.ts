import type { ClockLedger } from "./clock-ledger";
import { medianStep } from "./median-step";

const HOUR = 3600;
const DAY = 24 * HOUR;

/**
 * Twelve-hour times whose AM and PM the file left out, in place: all hours lie between 1 and 12, and on the same date the clock falls back by
 * half a day. A fall on the same date is noon; a date that follows without a pause is midnight.
 * @param times s as if UTC, file order, shape [n]
 */
export function markHalves(times: Float64Array, ledger: ClockLedger): void {
  const step = medianStep(times);
  const starts = findRuns(times, step);
  if (starts === null) return;
  for (let k = 0; k < starts.length; k++) {
    const [from, to] = [starts[k], (starts[k + 1] ?? times.length) - 1];
    const day = dayOf(times[from]);
    const noonBefore = k > 0 && dayOf(times[from - 1]) === day;
    const noonAfter = k + 1 < starts.length && dayOf(times[starts[k + 1]]) === day;
    const midnightAfter = k + 1 < starts.length && dayOf(times[starts[k + 1]]) === day + 1 && times[starts[k + 1]] - times[to] < 13 * HOUR;
    const afternoon = noonBefore || (!noonAfter && midnightAfter);
    for (let i = from; i <= to; i++) {
      const twelve = times[i] - day * DAY >= 12 * HOUR;
      times[i] += (afternoon ? 12 * HOUR : 0) - (twelve ? 12 * HOUR : 0);
    }
  }
  ledger.notes.push({ kind: "unmarked-halves" });
}

const dayOf = (t: number) => Math.floor(t / DAY);

/** First rows of the stretches between noons and midnights; null where the times are no unmarked twelve-hour times. */
function findRuns(times: Float64Array, step: number): readonly number[] | null {
  const starts: number[] = [0];
  let noons = 0;
  for (let i = 0; i < times.length; i++) {
    const ofDay = times[i] - dayOf(times[i]) * DAY;
    if (!(ofDay >= HOUR && ofDay < 13 * HOUR)) return null;
    if (i === 0) continue;
    // 12:50 to 1:00 is a fall of 11:50, and goes on in the same half; 11:50 to 12:00 is noon or midnight
    const [before, now] = [Math.floor((times[i - 1] % DAY) / HOUR), Math.floor(ofDay / HOUR)];
    const sameDay = dayOf(times[i]) === dayOf(times[i - 1]);
    if (sameDay && times[i] < times[i - 1] && Math.abs(times[i - 1] - times[i] - 12 * HOUR + step) > 1.5 * step + 1) return null;
    if (sameDay && times[i] < times[i - 1] && before === 12) noons++;
    if (!sameDay || (before < 12 && now === 12)) starts.push(i);
  }
  return noons > 0 ? starts : null;
}
