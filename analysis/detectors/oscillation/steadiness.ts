import { autocorrelation } from "../../numerics/autocorrelation";
import { median } from "../../numerics/order-statistics";
import { reusedRoom } from "../../numerics/reused-room";
import { crossingRegularity } from "../../numerics/zero-crossings";

/** What the waves of a window look like one after another. */
export type Steadiness = {
  /** Mean over three standard deviations of the autocorrelation's zero crossings; 0 where there are too few. */
  readonly regularity: number;
  /** Median over the periods of each wave's part in phase with the whole, over the mean: 1 for a wave that keeps on, small for one ring or a wandering one. */
  readonly medianWave: number;
  /** Share of periods whose wave is in phase with the whole. */
  readonly inPhase: number;
};

/**
 * Looks at a window in time, wave by wave. A single disturbance has its power in few waves, a damped ring in the first ones, and noise
 * seldom keeps phase; a sustained oscillation passes all three.
 * @param values shape [n], evenly spaced, trend removed   @param period in samples
 */
export function steadinessOf(values: Float64Array, n: number, period: number): Steadiness {
  const slow = movingMean(values, n, period);
  const fast = new Float64Array(n);
  for (let i = 0; i < n; i++) fast[i] = values[i] - slow[i];
  const smooth = movingMean(fast, n, Math.max(1, period / 3));
  const found = crossingRegularity(autocorrelation(smooth, Math.min(n - 1, Math.ceil(6.5 * period))));
  const agrees = found !== null && Math.abs(found.period / period - 1) < 0.2;
  return { regularity: agrees ? Math.min(found.index, 1000) : 0, ...wavesInPhase(fast, n, period) };
}

/** Sums of a window are asked for thousands of times, those of a whole record once: they would be held for good. */
const sumsRoom = reusedRoom(1 << 14);

/** Mean over a window of `width` samples around each (shrinking at the ends, fractions counted): takes a wave of that period away. O(n). */
export function movingMean(values: ArrayLike<number>, n: number, width: number): Float64Array {
  const mean = meanAround(values, n, width);
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) out[i] = mean(i);
  return out;
}

/** The same, sample by sample as it is asked for; until the next call of either. */
export function meanAround(values: ArrayLike<number>, n: number, width: number): (i: number) => number {
  const sums = sumsRoom(n + 1);
  sums[0] = 0;
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i] + values[i];
  const at = (x: number): number => {
    const i = Math.min(n - 1, Math.floor(x));
    return sums[i] + (x - i) * values[i];
  };
  return (i) => {
    const half = Math.min(width / 2, i + 0.5, n - i - 0.5);
    return (at(i + 0.5 + half) - at(i + 0.5 - half)) / (2 * half);
  };
}

function wavesInPhase(values: Float64Array, n: number, period: number): { medianWave: number; inPhase: number } {
  const waves = Math.floor(n / period);
  const re = new Float64Array(waves);
  const im = new Float64Array(waves);
  const turnC = Math.cos((2 * Math.PI) / period);
  const turnS = Math.sin((2 * Math.PI) / period);
  const end = Math.floor(waves * period);
  let c = 1;
  let s = 0;
  for (let i = 0; i < end; i++) {
    const wave = Math.min(waves - 1, Math.floor(i / period));
    re[wave] += values[i] * c;
    im[wave] += values[i] * s;
    const turned = c * turnC - s * turnS;
    s = s * turnC + c * turnS;
    c = turned;
  }
  const meanRe = re.reduce((sum, v) => sum + v, 0) / waves;
  const meanIm = im.reduce((sum, v) => sum + v, 0) / waves;
  const size = meanRe * meanRe + meanIm * meanIm;
  if (!(size > 0)) return { medianWave: 0, inPhase: 0 };
  const parts = re.map((r, j) => (r * meanRe + im[j] * meanIm) / size);
  return { medianWave: median(parts), inPhase: parts.filter((p) => p > 0).length / waves };
}
