import { mainChannel } from "../../../shared/record/find-channel";
import { median } from "../../numerics/order-statistics";
import { instantsOf } from "../../segments/instants";
import { isWithin } from "../../segments/is-within";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { turningPoints } from "../../segments/turning-points";
import { found, isFixedSpeed, type Looks, levelFor, setPressureOf } from "./sight";

const SLOWEST_SAMPLING = 2.2; // s; a sound rise takes some seconds
/** A rise counts from this share of set pressure on: less than any band of a drive, more than a sensor's drift. */
const LEAST_RISE = 0.03;
const STANDS_OUT = 8; // noise spreads
const LEAST_RISES = 5;
/** Of the rises the largest eighth, but three at least: a start and what follows it, not a draw that ends a little. */
const LARGEST = { share: 1 / 8, least: 3 };
/**
 * Edges of the time to the middle of a rise, s. A drive runs up in 1.5 to 12 s and a tank of practice size takes as long again; a choked port's lag of
 * 10 s and more adds 0.69 of itself; a pump at its end takes as long as the draw.
 */
const EDGES = [2.2, 8, 30] as const;

type Rise = { readonly at: number; readonly size: number; readonly half: number };

/** Rises from each low to the high after it: Pa, and s to the middle; a gap in the rise leaves it out. O(n). */
function risesOf(times: Float64Array, pressure: ArrayLike<number>, least: number, gap: number): Rise[] {
  const turns = turningPoints(pressure, 0, times.length - 1, least);
  return turns.flatMap(({ index, kind }, k) => {
    const high = turns[k + 1];
    if (kind !== "low" || high === undefined) return [];
    const middle = (pressure[index] + pressure[high.index]) / 2;
    for (let i = index + 1; i <= high.index; i++) {
      if (times[i] - times[i - 1] > gap) return [];
      if (!(pressure[i] >= middle)) continue;
      const before = Number.isNaN(pressure[i - 1]) ? pressure[index] : pressure[i - 1];
      const part = (middle - before) / (pressure[i] - before);
      return {
        at: times[index],
        size: 2 * (middle - pressure[index]),
        half: times[i - 1] - times[index] + part * (times[i] - times[i - 1]),
      };
    }
    return [];
  });
}

export const risePaceLooks: Pick<Looks, "rise-pace"> = {
  /**
   * How fast the pressure comes back, by the pressure alone. It rises only while the pump gives more than is drawn: at rest nothing pushes it up. So the
   * time from a low to the middle of a large rise is that of pump, tank and sensor, whatever says when the pump ran: dp/dt = (Qp - Qd)/C, so that little gas
   * makes it sudden and a pump at its end slow, and behind a first-order lag tau it takes 0.69 tau more at least.
   * With a switch a rise is the tank's filling: not asked.
   */
  "rise-pace"(sight) {
    const [channel, set] = [mainChannel(sight.record, "pressure"), setPressureOf(sight)];
    if (channel === null || set === null || !(set > 0) || isFixedSpeed(sight.site) || channel.sampling.kind === "on-change") return null;
    const times = instantsOf(channel.sampling);
    const interval = (times[times.length - 1] - times[0]) / Math.max(1, times.length - 1);
    if (!(interval <= SLOWEST_SAMPLING)) return null;
    const noise = Math.hypot(noiseOf(channel.values), levelStep(channel.values) / Math.sqrt(12));
    const otherwise = found(sight, "tracking")?.otherSetPressure?.times ?? []; // a rise from one set pressure to another is the clock's
    const isOfOne = ({ at }: Rise) => !isWithin(otherwise, at);
    const rises = risesOf(times, channel.values, Math.max(LEAST_RISE * set, STANDS_OUT * noise), 3 * interval).filter(isOfOne);
    if (rises.length < LEAST_RISES) return null;
    const large = rises.sort((a, b) => b.size - a.size).slice(0, Math.max(LARGEST.least, Math.floor(LARGEST.share * rises.length)));
    const half = median(large.map((rise) => rise.half));
    return { level: levelFor(half, EDGES, ["sudden", "prompt", "late", "slow"]), numbers: { half, rises: large.length } };
  },
};
