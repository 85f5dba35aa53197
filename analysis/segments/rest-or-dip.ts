import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { median, quantiles } from "../numerics/order-statistics";
import { crossing } from "./lobe-shape";
import type { Turn } from "./turning-points";

/** Nothing is set to start closer under the pressure it holds, Pa. Common practice, no source. */
const LEAST_DROP = 10_000;
/**
 * Falls and recoveries are timed halfway, where neither a boost before sleep nor noise counts for much; of a plunge, whose depth says nothing, at half of what lies
 * between a usual held and restart pressure. Common practice, no source.
 */
const HALFWAY = 0.5;
const USUAL_DROP = 50_000; // Pa
/** A fall this part as long as the recovery may be that of a tank; of a critically damped loop, p ~ t exp(-at), it is 0.46 of it from half to half. */
const LASTS = 0.6;
/** A restart pressure is a setting: so many depths agree within a tenth, and more closely than the falls, which go by the draws (quartiles, in logarithms). */
const SETTING = { least: 8, within: 0.1, falls: 2 };

/**
 * Whether the lows of a drive may as well be dips that it recovered from while it ran. It rests until the tank has given what lies between the held and the restart
 * pressure, be the draw slow or quick, and then has the pressure back in little more than its run-up: the fall lasts, or takes as long as it pleases while all falls
 * are as deep. A dip is the loop's answer to a draw: it goes down while the drive catches up (rate of fall q/C, over in its response time) and comes back slower than
 * it went, the deeper the larger the draw. Derivation: C dp/dt = Q - q with Q following p by a loop without memory of rest.
 * @param held Pa gauge, that the drive holds
 */
export function mayBeDips(values: ArrayLike<number>, sampling: Sampling, turns: readonly Turn[], held: number): boolean {
  const lows = turns.flatMap((turn, k) => (turn.kind === "low" && k > 0 && k + 1 < turns.length ? [k] : []));
  if (lows.length === 0) return false;
  const depths = Float64Array.from(lows, (k) => held - values[turns[k].index]);
  const depth = median(depths);
  if (depth < LEAST_DROP) return true;
  const level = held - HALFWAY * Math.min(depth, USUAL_DROP);
  const seen = lows.map((k) => aroundLow(values, sampling, turns, k, level));
  const lasting = median(Float64Array.from(seen, ({ fall, recovery }) => fall / recovery));
  if (lasting > LASTS) return false;
  const agree = spread(depths);
  return (
    seen.length < SETTING.least || agree > SETTING.within || !(spread(Float64Array.from(seen, ({ fall }) => fall)) > SETTING.falls * agree)
  );
}

/** Logarithm of the upper over the lower quartile. */
function spread(values: Float64Array): number {
  const [low, high] = quantiles(values, [0.25, 0.75]);
  return Math.log(high / low);
}

/** How long it took to fall to a low from a level over it and to come back to that level, s. */
function aroundLow(values: ArrayLike<number>, sampling: Sampling, turns: readonly Turn[], k: number, level: number) {
  const low = turns[k].index;
  const reached = (to: number) => instant(sampling, crossing(values, low, to, level));
  const turned = timeAt(sampling, low);
  return { fall: turned - reached(turns[k - 1].index), recovery: reached(turns[k + 1].index) - turned };
}

/** Instant between two samples, s. */
function instant(sampling: Sampling, place: number): number {
  const before = timeAt(sampling, Math.floor(place));
  return before + (place - Math.floor(place)) * (timeAt(sampling, Math.ceil(place)) - before);
}
