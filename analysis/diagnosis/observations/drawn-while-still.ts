import type { Trace } from "../../model/fit/trace";

/** A still stretch is told by so many readings at least. */
const LEAST_READINGS = 20;
/** A late sensor follows in a minute: what is drawn in the last minute before the reading moves does not count, s. */
const LATE = 60;
/** A volume of the facts and a meter are not exact: the fall that the largest such tank would show is so many times the range of a still reading. */
const SURELY = 3;

/**
 * How long the reading stood still at rest although more water was drawn than any tank of this size gives without a fall of pressure, s. With the pump off
 * the draw comes out of the tank: dp = V p^2 / K (Boyle), and K = p0 Vt is at most p Vt, since the charge stands below the pressure; so dp >= V p / Vt.
 * Wrong where the pump ran unseen: only with a witness other than pressure and flow. O(n).
 * @param still widest range of a reading that stands still, Pa     @param volume of the tank, m3     @param atmosphere Pa
 * @param leastFlow below this the meter may show what is not there, m3/s
 */
export function drawnWhileStill(trace: Trace, still: number, volume: number, atmosphere: number, leastFlow: number): number {
  const { times, pressure, flow, run, interval } = trace;
  if (flow === null) return 0;
  const drawnIn = (first: number, last: number) => {
    let drawn = 0;
    for (let i = first + 1; i <= last && times[i] <= times[last] - LATE; i++) {
      const surely = Math.min(flow[i - 1], flow[i]); // between two samples a draw may have begun or ended at any time
      if (surely >= leastFlow) drawn += surely * (times[i] - times[i - 1]);
    }
    return drawn;
  };
  let [total, first, low, high] = [0, 0, Number.NaN, Number.NaN];
  for (let i = 0; i <= times.length; i++) {
    const p = i < times.length ? pressure[i] : Number.NaN;
    const goesOn = i > first && run[i] < 0 && run[i - 1] < 0 && times[i] - times[i - 1] <= 3 * interval;
    if (goesOn && Math.max(high, p) - Math.min(low, p) <= still) {
      [low, high] = [Math.min(low, p), Math.max(high, p)];
      continue;
    }
    const fall = i - first >= LEAST_READINGS ? (drawnIn(first, i - 1) * (low + atmosphere)) / volume : 0;
    if (fall > SURELY * still) total += times[i - 1] - times[first];
    [first, low, high] = [i, p, p];
  }
  return total;
}
