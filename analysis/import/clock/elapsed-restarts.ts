import type { ClockLedger } from "./clock-ledger";
import { medianStep } from "./median-step";

/**
 * An elapsed clock that starts again from its beginning: the later run is placed one usual step after the earlier, in place. How long the logger
 * stood still in between is not known, and that is said.
 */
export function followRestarts(times: Float64Array, ledger: ClockLedger): void {
  const step = medianStep(times);
  const first = times.find((t) => !Number.isNaN(t)) ?? 0;
  let [last, added, restarts] = [Number.NaN, 0, 0];
  const hourly = isMinutesOfHour(times, step);
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    if (hourly && t < last - 1800) {
      added += 3600;
      last = t;
      times[i] = t + added;
      continue;
    }
    const backToStart = t <= first + 1.5 * step && last - t > 3 * step && rises(times, i);
    if (backToStart) {
      const end = last + added;
      added = end + step - t;
      restarts++;
      ledger.faults.push({
        kind: "restart",
        from: end,
        to: end + step,
        note: { kind: "elapsed-again" },
      });
    }
    last = t;
    times[i] = t + added;
  }
  if (restarts > 0) ledger.notes.push({ kind: "restart", times: restarts });
}

/** Minutes and seconds only ("59:50", "00:00"): each fall is the step over the full hour. */
function isMinutesOfHour(times: Float64Array, step: number): boolean {
  let falls = 0;
  let last = Number.NaN;
  for (const t of times) {
    if (t < 0 || t >= 3600) return false;
    if (t < last) {
      if (Math.abs(t + 3600 - last - step) > step) return false;
      falls++;
    }
    if (!Number.isNaN(t)) last = t;
  }
  return falls > 0;
}

/** The next rows go on from here, so that a single late row is not taken for a restart. */
function rises(times: Float64Array, from: number): boolean {
  for (let i = from + 1; i < Math.min(from + 4, times.length); i++)
    if (!(times[i] > times[i - 1]) || times[i] - times[from] > (times[i] - times[i - 1]) * 4) return false;
  return from + 1 < times.length;
}
