import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import type { Measured } from "../../../shared/units/measured";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { quantile } from "../../numerics/order-statistics";
import { type LeastSquaresLine, leastSquaresLine, reach95 } from "../../numerics/regression";
import type { Evidence } from "../detector";

export type NoiseGrowth = { readonly grows: boolean; readonly perFlowSquared: Measured | null };

const BLOCK = 24; // samples
const LEAST_BLOCKS = 12;
const MOST_BLOCKS = 3000;
const FLOW_SPREAD = 2; // highest blocks' flow over lowest blocks': less says nothing
const CLEARLY = 1.5; // noise at the most flow over noise at the least

/**
 * Whether what changes from sample to sample grows with flow. Pressure fluctuations of turbulence go with the square of speed, so the variance of a block
 * is fitted as n0^2 + (c q^2)^2; c in Pa per (m3/s)^2. Blocks in which the flow itself changes are left out. Null without flow, or where it hardly varies.
 * Wrong where the pump's own pulsation grows with flow alike.
 */
export function noiseWithFlow({ record, faults }: Evidence, pressure: Channel): NoiseGrowth | null {
  const flow = mainChannel(record, "flow");
  if (flow === null || pressure.sampling.kind === "on-change") return null;
  const blocks = blocksOf(pressure, valuesWithoutSpikes(pressure, faults), flow, stretchesOf(pressure, faults));
  if (blocks.length < LEAST_BLOCKS) return null;
  const flows = blocks.map((block) => block.flow);
  const [least, most] = [quantile(flows, 0.1), quantile(flows, 0.9)];
  if (!(most > 0 && most > FLOW_SPREAD * Math.max(0, least))) return null;
  const noiseAt = (inside: (q: number) => boolean) =>
    Math.sqrt(
      quantile(
        blocks.filter((b) => inside(b.flow)).map((b) => b.variance),
        0.5,
      ),
    );
  const ratio = noiseAt((q) => q >= most) / noiseAt((q) => q <= least);
  const line = leastSquaresLine(
    blocks.map(({ flow: q }) => q ** 4),
    blocks.map(({ variance }) => variance),
  );
  if (line === null || !Number.isFinite(ratio)) return null;
  const reach = reach95(slopeSpread(blocks, line), line.points - 2);
  const grows = ratio > CLEARLY && line.slope > reach;
  const root = (square: number) => Math.sqrt(Math.max(0, square));
  return {
    grows,
    perFlowSquared: grows ? { value: root(line.slope), low: root(line.slope - reach), high: root(line.slope + reach) } : null,
  };
}

/**
 * Standard deviation of the slope over q^4. A loud block's variance is known no better than to a part of itself, so that the blocks of much flow scatter
 * most: each counts with its own residual. Source: White 1980, with the factor n/(n-2) for few points.
 */
function slopeSpread(blocks: readonly Block[], line: LeastSquaresLine): number {
  const mean = blocks.reduce((sum, { flow }) => sum + flow ** 4, 0) / blocks.length;
  let [sxx, meat] = [0, 0];
  for (const { flow, variance } of blocks) {
    const x = flow ** 4 - mean;
    sxx += x * x;
    meat += (x * (variance - line.intercept - line.slope * flow ** 4)) ** 2;
  }
  return Math.sqrt((meat * blocks.length) / (blocks.length - 2)) / sxx;
}

type Block = { readonly flow: number; readonly variance: number };

function blocksOf(
  pressure: Channel,
  values: ArrayLike<number>,
  flow: Channel,
  stretches: readonly { first: number; last: number }[],
): Block[] {
  const stride = BLOCK * Math.max(1, Math.floor(values.length / (BLOCK * MOST_BLOCKS)));
  return stretches.flatMap(({ first, last }) => {
    const blocks: Block[] = [];
    for (let from = first; from + BLOCK <= last + 1; from += stride) {
      const q = steadyFlow(flow, timeAt(pressure.sampling, from), timeAt(pressure.sampling, from + BLOCK - 1));
      const variance = bendVariance(values, from);
      if (q !== null && !Number.isNaN(variance)) blocks.push({ flow: q, variance });
    }
    return blocks;
  });
}

const STEADY_WITHIN = 0.15;

/** Mean flow over a stretch; null where it changes by more than a part of itself. */
function steadyFlow({ sampling, values }: Channel, from: number, to: number): number | null {
  let [low, high, sum, n] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0];
  for (let i = Math.max(0, indexAtOrAfter(sampling, from) - 1); i < values.length && timeAt(sampling, i) <= to; i++) {
    low = Math.min(low, values[i]);
    high = Math.max(high, values[i]);
    sum += values[i];
    n++;
  }
  return n === 0 || high - low > STEADY_WITHIN * Math.abs(high) ? null : sum / n;
}

/**
 * The median of many squares of a normal value is 0.4549 (chi-square with one degree of freedom), that of so few, each with two values in common with its
 * neighbour, is more in the mean: 400,000 draws, standard error 0.0005. The test draws again.
 */
const MEAN_OF_MEDIAN = 0.5252;

/** Variance of what changes from sample to sample, by second differences (sum of squared weights 6), robust to one bend by the median of their squares. */
function bendVariance(values: ArrayLike<number>, from: number): number {
  const squares = new Float64Array(BLOCK - 2);
  for (let i = 0; i < squares.length; i++) squares[i] = (values[from + i] - 2 * values[from + i + 1] + values[from + i + 2]) ** 2;
  return quantile(squares, 0.5) / (MEAN_OF_MEDIAN * 6);
}
