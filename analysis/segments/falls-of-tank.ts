import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { type AbsolutePascal, gaugePascal, toAbsolute } from "../../shared/units/pressure";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { quantile, quantiles } from "../numerics/order-statistics";
import { crossing } from "./lobe-shape";
import type { Turn } from "./turning-points";

/** Between these parts of its depth a fall is read: under the noise of the top it left and over that of its low. */
const READ = { from: 0.8, to: 0.15 };
/** Gas gives from isothermal to adiabatic (exponent 1 to 1.4): falls of one tank at rest lie within so much of each other. */
const EXPONENTS = 1.4;
const LEAST_ALIKE = 5;
/** Falls at rest make at least this part of all, by depth; others lie anywhere. */
const LEAST_SHARE = 0.15;
/** At rest the tank gives all that is drawn. With a pump that gives as much as the tank, or more, it was no rest. */
const MOST_DRAWN = 1.6;

/** s by which a meter's damping lets its flow lag. Common practice, no source. */
const METER_LAG = 1.5;
/** Lags of the meter, and its interval, that a fall must last for its water to be known within a third. */
const LAGS = 3;

/** Tukey's fence: what lies further than so many quartile distances outside of the quartiles is none of them (Tukey 1977). */
const FENCE = 1.5;

type Fall = { readonly low: number; readonly depth: number; readonly given: number; readonly drawn: number; readonly lasted: number };

/** Water drawn between two instants, m3, by a meter after the tank, and its interval, s. */
export type DrawnWater = { readonly between: (from: Seconds, to: Seconds) => number; readonly interval: number };

/**
 * Which falls of the pressure are those of a tank whose pump rests. At rest the tank gives what the meter after it counts, and its gas grows by that: V = K (1/p2 - 1/p1) with one K
 * for all falls (Boyle), be the draw slow or quick. While the pump gives too, more is drawn than the tank gives, by as much as the pump happens to give: such falls
 * scatter above that K. So the falls at rest are the ones that agree, lowest of all. A fall too quick for the meter is one where it goes as deep as those.
 * @returns the lows at whose end the tank had given the water; null where no K stands out
 */
export function restsByWater(
  values: ArrayLike<number>,
  sampling: Sampling,
  turns: readonly Turn[],
  water: DrawnWater,
  air: AbsolutePascal,
): ReadonlySet<number> | null {
  const falls = fallsOf(values, sampling, turns, water, air);
  const isSlow = ({ lasted }: Fall) => lasted >= LAGS * METER_LAG + water.interval;
  const slow = falls.filter(isSlow);
  const constant = gasConstant(slow.filter(({ drawn }) => drawn > 0));
  if (constant === null) return null;
  const atRest = falls.filter(({ drawn, given }) => drawn <= MOST_DRAWN * constant * given);
  const [first, third] = quantiles(
    atRest.filter(isSlow).map(({ low }) => values[low]),
    [0.25, 0.75],
  );
  const usual = third + FENCE * (third - first);
  return new Set(atRest.filter((fall) => isSlow(fall) || values[fall.low] <= usual).map(({ low }) => low));
}

function fallsOf(values: ArrayLike<number>, sampling: Sampling, turns: readonly Turn[], water: DrawnWater, air: AbsolutePascal): Fall[] {
  const falls: Fall[] = [];
  const inverse = (p: number) => 1 / toAbsolute(gaugePascal(p), air);
  for (let k = 1; k < turns.length; k++) {
    if (turns[k].kind !== "low" || turns[k - 1].kind !== "high") continue;
    const [high, low] = [turns[k - 1].index, turns[k].index];
    const depth = values[high] - values[low];
    const [from, to] = [READ.from, READ.to].map((part) => values[low] + part * depth);
    const begin = instant(sampling, crossing(values, low, high, from));
    const end = instant(sampling, crossing(values, low, high, to));
    falls.push({ low, depth, given: inverse(to) - inverse(from), drawn: water.between(begin, end), lasted: end - begin });
  }
  return falls;
}

/** Instant between two samples. */
function instant(sampling: Sampling, place: number): Seconds {
  const before = timeAt(sampling, Math.floor(place));
  return seconds(before + (place - Math.floor(place)) * (timeAt(sampling, Math.ceil(place)) - before));
}

/** The middle of the falls that lie within the exponents of each other and weigh most together, Pa m3; a very deep one (an empty tank) weighs no more than usual ones. */
function gasConstant(falls: readonly Fall[]): number | null {
  if (falls.length < LEAST_ALIKE) return null;
  const usual = quantile(
    falls.map(({ depth }) => depth),
    0.75,
  );
  const sorted = falls
    .map(({ drawn, given, depth }) => ({ ratio: drawn / given, weight: Math.min(depth, usual) }))
    .sort((a, b) => a.ratio - b.ratio);
  const all = sorted.reduce((sum, { weight }) => sum + weight, 0);
  let best = { weight: 0, first: 0, last: 0 };
  for (let first = 0, last = -1, weight = 0; first < sorted.length; weight -= sorted[first++].weight) {
    while (last + 1 < sorted.length && sorted[last + 1].ratio <= EXPONENTS * sorted[first].ratio) weight += sorted[++last].weight;
    if (weight > best.weight) best = { weight, first, last };
  }
  if (best.last - best.first + 1 < LEAST_ALIKE || best.weight < LEAST_SHARE * all) return null;
  return sorted[(best.first + best.last) >> 1].ratio;
}
