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
  for (let i = 0; i < times.length; i++) {
    const t = times[i];
    if (Number.isNaN(t)) continue;
    const backToStart = t <= first + 1.5 * step && last - t > 3 * step && rises(times, i);
    if (backToStart) {
      const end = last + added;
      added = end + step - t;
      restarts++;
      ledger.faults.push({
        kind: "restart",
        from: end,
        to: end + step,
        note: "the elapsed time starts again; how long the logger stood still is not known",
      });
    }
    last = t;
    times[i] = t + added;
  }
  if (restarts > 0) {
    const text = `The elapsed time starts again ${restarts === 1 ? "once" : `${restarts} times`}; each run is placed one usual step after the one before.`;
    ledger.notes.push({ kind: "restart", text });
  }
}

/** The next rows go on from here, so that a single late row is not taken for a restart. */
function rises(times: Float64Array, from: number): boolean {
  for (let i = from + 1; i < Math.min(from + 4, times.length); i++)
    if (!(times[i] > times[i - 1]) || times[i] - times[from] > (times[i] - times[i - 1]) * 4) return false;
  return from + 1 < times.length;
}
