import { mainChannel } from "../../../shared/record/find-channel";
import { timesOf } from "../../../shared/record/sampling";
import { sampleAt } from "../../model/fit/trace";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { restsOf } from "../../segments/starts";
import { turningPoints } from "../../segments/turning-points";
import { traceIn } from "./at-work";
import { pumpOf, type Sight } from "./sight";

const SLOWEST_SAMPLING = 12; // s; in longer ones a fall is over
/** Where nothing tells when the pump was at rest, a fall is one by this share of the pressure held: more than a loop leaves. */
const A_FALL = 0.06;

/** Samples a fall lies between, ends included. */
export type Stretch = { readonly first: number; readonly end: number };
/** Falls of the tank's pressure, each up to a start. `noise`: spread of a reading, Pa. `witnessed`: something other than the pressure tells when the pump starts. */
export type Falls = {
  readonly times: Float64Array;
  readonly pressure: ArrayLike<number>;
  readonly noise: number;
  readonly witnessed: boolean;
  readonly stretches: readonly Stretch[];
};

const spreadOf = (pressure: ArrayLike<number>) => Math.max(noiseOf(pressure), levelStep(pressure) / Math.sqrt(12));

/**
 * Falls of the tank before the starts; where the pump's state is not known, those from each high to the low after it.
 * @param held pressure that is held, or of the switch's start, Pa; null where it is not known     @returns null where the log is too slow or nothing tells of rests
 */
export function fallsBeforeStarts(sight: Sight, held: number | null): Falls | null {
  const [trace, pump] = [traceIn(sight), pumpOf(sight)];
  if (trace !== null && pump !== null) {
    if (trace.interval > SLOWEST_SAMPLING) return null;
    const stretches = restsOf(pump).map(({ from, to }) => ({ first: sampleAt(trace, from), end: Math.max(0, sampleAt(trace, to) - 1) }));
    const witnessed = pump.basis !== "pressure" && pump.basis !== "flow";
    return { times: trace.times, pressure: trace.pressure, noise: spreadOf(trace.pressure), witnessed, stretches };
  }
  const channel = mainChannel(sight.record, "pressure");
  if (held === null || channel === null || channel.sampling.kind === "on-change" || channel.values.length < 60) return null;
  const times = timesOf(channel.sampling);
  if ((times[times.length - 1] - times[0]) / (times.length - 1) > SLOWEST_SAMPLING) return null;
  const turns = turningPoints(channel.values, 0, times.length - 1, A_FALL * held);
  const stretches = turns.flatMap((low, k) => (low.kind === "low" && k > 0 ? [{ first: turns[k - 1].index, end: low.index }] : []));
  return { times, pressure: channel.values, noise: spreadOf(channel.values), witnessed: false, stretches };
}
