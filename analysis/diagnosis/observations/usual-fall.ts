import { mainChannel } from "../../../shared/record/find-channel";
import { timesOf } from "../../../shared/record/sampling";
import { sampleAt } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { restsOf } from "../../segments/starts";
import { turningPoints } from "../../segments/turning-points";
import { PRACTICE_SHARE_OF_MINUTE } from "../practice";
import { traceIn } from "./at-work";
import { type LastFall, lastFall } from "./last-fall";
import { cutInOf, isFixedSpeed, type Looks, levelFor, pumpOf, type Sight, setPressureOf } from "./sight";
import { usualCharge } from "./tank";

const MINUTE = 60; // s
const SLOWEST_SAMPLING = 12; // s; in longer ones a fall is over
const LEAST_FALLS = 4;
/** Where nothing tells when the pump was at rest, a fall is one by this share of the pressure held: more than a loop leaves. */
const A_FALL = 0.06;
/**
 * How many times what is usually drawn the pump is rated for. A drive's pump is chosen for the most that is drawn at once, and a single draw is a fifth of that
 * or less; a switch's pump is hardly larger than what is drawn. Edges by half of that, and again a third of it: the draw of most of the pump's flow
 * whenever it starts. Common practice, no source; on sites used for fitting sound drives came to 5.3 and more, sound switches to 2.8.
 */
const EDGES = { drive: [1.5, 4.5], switch: [0.7, 2.2] } as const;
/** A fall within a sample may have been any faster: whether it is usual cannot be told. */
const SEEN = 1.5; // samples

type Falls = { readonly times: Float64Array; readonly pressure: ArrayLike<number>; readonly stretches: readonly Stretch[] };
type Stretch = { readonly first: number; readonly end: number };

/** Falls of the tank before the starts; where the pump's state is not known, those from each high to the low after it. */
function fallsIn(sight: Sight, held: number): Falls | null {
  const [trace, pump] = [traceIn(sight), pumpOf(sight)];
  if (trace !== null && pump !== null) {
    if (trace.interval > SLOWEST_SAMPLING) return null;
    const stretches = restsOf(pump).map(({ from, to }) => ({ first: sampleAt(trace, from), end: Math.max(0, sampleAt(trace, to) - 1) }));
    return { times: trace.times, pressure: trace.pressure, stretches };
  }
  const channel = mainChannel(sight.record, "pressure");
  if (channel === null || channel.sampling.kind === "on-change" || channel.values.length < 60) return null;
  const times = timesOf(channel.sampling);
  if ((times[times.length - 1] - times[0]) / (times.length - 1) > SLOWEST_SAMPLING) return null;
  const turns = turningPoints(channel.values, 0, times.length - 1, A_FALL * held);
  const stretches = turns.flatMap((low, k) => (low.kind === "low" && k > 0 ? [{ first: turns[k - 1].index, end: low.index }] : []));
  return { times, pressure: channel.values, stretches };
}

/** What the tank of the facts would have with the usual charge, J; without a volume a drive's is that of practice. */
function soundTank({ site }: Sight, charge: number, rated: number): number | null {
  const volume = site.tankVolume?.value ?? (isFixedSpeed(site) ? null : PRACTICE_SHARE_OF_MINUTE * rated * MINUTE);
  return volume === null ? null : volume * (charge + site.atmosphere.value);
}

export const usualFallLooks: Pick<Looks, "usual-fall"> = {
  /**
   * How fast the pressure usually falls before the pump starts. There the tank alone feeds the draw, q = K d(1/p)/dt. No meter says q, but what is
   * usually drawn is some small part of what the pump is rated for: by the falls of a sound tank Q / q is 5 to 50. A tank that is empty or water-logged has
   * next to no K, and every tap seems to draw more than the pump can give. Of all falls the middle one, so that no single draw decides.
   */
  "usual-fall"(sight) {
    const rated = sight.site.pumpRatedFlow?.value ?? null;
    const [charge, held] = [usualCharge(sight), isFixedSpeed(sight.site) ? cutInOf(sight) : setPressureOf(sight)];
    if (rated === null || charge === null || held === null || !(held > 0)) return null;
    const [falls, sound] = [fallsIn(sight, held), soundTank(sight, charge, rated)];
    if (falls === null || sound === null) return null;
    const noise = Math.max(noiseOf(falls.pressure), levelStep(falls.pressure) / Math.sqrt(12));
    const seen = falls.stretches.flatMap((s) => lastFall(falls.times, falls.pressure, s, noise, sight.site.atmosphere.value) ?? []);
    if (seen.length < LEAST_FALLS) return null;
    const middle = (of: (fall: LastFall) => number) => quantile(seen.map(of), 0.5);
    const ratio = middle(({ time, rise }) => (rated * time) / rise / sound);
    const level = levelFor(ratio, EDGES[isFixedSpeed(sight.site) ? "switch" : "drive"], ["sudden", "quick", "usual"]);
    if (level === "usual" && middle(({ samples }) => samples) < SEEN) return null;
    return { level, numbers: { ratio, time: middle(({ time }) => time), falls: seen.length } };
  },
};
