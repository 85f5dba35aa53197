import type { ClockLedger } from "./clock-ledger";
import { medianStep } from "./median-step";

const DAY = 86400;

/**
 * A date that stays while the time of day passes midnight, in place: the rows go on evenly over the fall of the clock, so they belong to the next day,
 * until the date moves on by itself.
 * @param times s as if UTC, file order, shape [n]
 */
export function followStuckDate(times: Float64Array, ledger: ClockLedger): void {
  const step = medianStep(times);
  if (!(step > 0 && step < DAY / 4)) return;
  let [shift, last, midnights] = [0, Number.NaN, 0];
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    const sameDate = Math.floor(t / DAY) === Math.floor(last / DAY);
    if (!sameDate) shift = 0;
    else if (t < last - DAY / 2 && Math.abs(t + DAY - last - step) <= step + 1) {
      shift += DAY;
      midnights++;
    }
    last = t;
    times[i] = t + shift;
  }
  if (midnights > 0) ledger.notes.push({ kind: "stuck-date", midnights });
}

/** Days counted within a year begin anew in January: what falls by most of a year belongs to the next one, in place. */
export function followYears(times: Float64Array): void {
  let [shift, last] = [0, Number.NaN];
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    if (t < last - 300 * DAY) shift += new Date((last + shift) * 1000).getUTCFullYear() % 4 === 0 ? 366 * DAY : 365 * DAY;
    last = t;
    times[i] = t + shift;
  }
}
