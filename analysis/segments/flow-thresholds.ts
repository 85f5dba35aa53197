import { finiteValues, quantile } from "../numerics/order-statistics";
import { remembered } from "../numerics/remember";
import { someValues } from "../numerics/some-values";
import { levelsOf } from "../numerics/two-levels";
import type { Thresholds } from "./switching";

/** What counts as no flow, and as flow, on one meter. */
export type FlowThresholds = Thresholds & {
  /** Where the meter rests: 0, or the base flow that never stops. */
  readonly rest: number;
  /** Spread about the rest level. */
  readonly spread: number;
  /** The rest level is a flow that never stops (or a meter whose zero is off). */
  readonly neverStops: boolean;
};

const REST_HEAP_WITHIN = 0.3; // of the highest usual flow: a resting heap above it is no rest

/** Spreads of the resting heap by which the flows must stand off; how wide their own heap is does not matter, draws differ. */
const CLEAR_OF_REST = 4;

/**
 * Rest level of a flow channel and the thresholds over it, from the lowest empty stretch of its histogram. Without one (a meter that drifts
 * through all flows) zero is the rest if the meter shows zero at all.
 * @param values shape [n], m3/s  @returns null where the flow never rests, or never moves
 */
export const flowThresholds = remembered(thresholdsOf);

function thresholdsOf(values: ArrayLike<number>): FlowThresholds | null {
  const kept = finiteValues(values);
  const some = someValues(kept);
  const high = quantile(some, 0.999);
  if (!(high > 0)) return null;
  const zeros = shareOfZeros(kept, high);
  if (zeros > MANY_ZEROS) return zeroRest(high, trembling(some, high));
  const lowest = levelsOf(kept).find(
    (l) => l.highEdge - l.low > CLEAR_OF_REST * l.lowSpread && l.low <= REST_HEAP_WITHIN * high && 1 - l.share > MANY_ZEROS,
  );
  if (lowest === undefined) return zeros > SOME_ZEROS ? zeroRest(high, 0) : null;
  const { low: rest, lowSpread: spread, lowEdge, highEdge } = lowest;
  const lift = Math.max(6 * spread, 0.01 * high);
  const on = Math.min(Math.max(rest + lift, lowEdge), (lowEdge + highEdge) / 2);
  return {
    rest,
    spread,
    neverStops: rest > Math.max(3 * spread, 0.005 * high),
    on,
    off: rest + (on - rest) * 0.7,
    at: rest + (on - rest) * 0.85,
  };
}

const ZERO = 1e-5; // of the highest usual flow
/** A meter that shows exactly nothing for so much of the time rests at zero, whatever the steps of its flows. */
const MANY_ZEROS = 0.02;
const SOME_ZEROS = 0.002;

function shareOfZeros(values: Float64Array, high: number): number {
  let zeros = 0;
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i]) <= ZERO * high) zeros++;
  return zeros / values.length;
}

/** Median of the upper half of a normal distribution over its spread. */
const PER_HALF_NORMAL_MEDIAN = 0.6745;
const AS_MANY = 0.6;
const HEAP_ENDS = 4; // spreads

/**
 * Spread of a meter that trembles about zero but shows nothing below it: as many readings as are zero then make the upper half of a normal heap, with hardly
 * any beyond it. 0 where the small readings look otherwise: then they are flows.
 */
function trembling(values: Float64Array, high: number): number {
  const zeros = shareOfZeros(values, high) * values.length;
  const above = values.filter((value) => value > ZERO * high);
  if (above.length < AS_MANY * zeros) return 0;
  const spread = quantile(above, Math.min(1, zeros / 2 / above.length)) / PER_HALF_NORMAL_MEDIAN;
  const beyond = above.filter((value) => value > HEAP_ENDS * spread && value < 2 * HEAP_ENDS * spread).length;
  return spread < 0.05 * high && beyond < 0.1 * zeros ? spread : 0;
}

function zeroRest(high: number, spread: number): FlowThresholds {
  const on = Math.max(0.01 * high, 6 * spread);
  return { rest: 0, spread, neverStops: false, on, off: 0.5 * on, at: 0.75 * on };
}

/**
 * Flows with zero for what is only a meter's tremble about its zero. Where nothing below zero is shown the tremble counts water that no one drew, over a long
 * rest more than the draws; what truly dribbles through below it the meter cannot tell. Shape [n] -> [n], m3/s.
 */
export const withoutTremble = remembered(tremblesTakenOff);

function tremblesTakenOff(flows: ArrayLike<number>): ArrayLike<number> {
  const thresholds = flowThresholds(flows);
  if (thresholds === null || thresholds.neverStops || thresholds.spread === 0) return flows;
  return Float32Array.from(flows, (flow) => (flow < thresholds.at ? 0 : flow));
}
