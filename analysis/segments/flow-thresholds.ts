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
  const high = quantile(someValues(kept), 0.999);
  if (!(high > 0)) return null;
  const zeros = shareOfZeros(kept, high);
  if (zeros > MANY_ZEROS) return zeroRest(high);
  const lowest = levelsOf(kept).find(
    (l) => l.highEdge - l.low > CLEAR_OF_REST * l.lowSpread && l.low <= REST_HEAP_WITHIN * high && 1 - l.share > MANY_ZEROS,
  );
  if (lowest === undefined) return zeros > SOME_ZEROS ? zeroRest(high) : null;
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

/** A meter that shows exactly nothing for so much of the time rests at zero, whatever the steps of its flows. */
const MANY_ZEROS = 0.02;
const SOME_ZEROS = 0.002;

function shareOfZeros(values: Float64Array, high: number): number {
  let zeros = 0;
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i]) <= 1e-5 * high) zeros++;
  return zeros / values.length;
}

const zeroRest = (high: number): FlowThresholds => ({
  rest: 0,
  spread: 0,
  neverStops: false,
  on: 0.01 * high,
  off: 0.005 * high,
  at: 0.0075 * high,
});
