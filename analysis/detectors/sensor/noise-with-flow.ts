import type { PumpState } from "../../../shared/findings/segment";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import type { Measured } from "../../../shared/units/measured";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { quantile } from "../../numerics/order-statistics";
import { type LeastSquaresLine, leastSquaresLine, reach95 } from "../../numerics/regression";
import { levelStep } from "../../segments/pressure-noise";
import { knownPump } from "../../segments/starts";
import type { Evidence } from "../detector";

export type NoiseGrowth = { readonly grows: boolean; readonly perFlowSquared: Measured | null };

const BLOCK = 16; // samples
const LEAST_BLOCKS = 12;
const LEAST_AT_AN_END = 5;
const MOST_BLOCKS = 6000;
/** Much, little (or the lowest tenth, where flow is never little), and what lies between: shares of the highest flow. */
const MUCH = 0.5;
const LITTLE = 0.15;
const CLEARLY = 1.5; // noise at much flow over noise at little
/** Of the variance that came with the flow: at middling flow its square law leaves a twentieth; a swing of the loop is there at once. */
const AT_MIDDLING = 0.35;
/** A sensor's step hides noise under about a third of it. */
const HIDDEN = 1 / 3;

/**
 * Whether what changes from sample to sample grows with flow. Pressure fluctuations of turbulence go with the square of speed, so the variance of a block
 * is fitted as n0^2 + (c q^2)^2; c in Pa per (m3/s)^2. Blocks in which the flow itself changes are left out, and draws while the pump rests, which need
 * not pass the sensor. Null without flow, or where it hardly varies.
 * Wrong where the pump's own pulsation grows with flow alike.
 */
export function noiseWithFlow({ record, faults, segments }: Evidence, pressure: Channel): NoiseGrowth | null {
  const flow = mainChannel(record, "flow");
  if (flow === null || pressure.sampling.kind === "on-change") return null;
  const values = valuesWithoutSpikes(pressure, faults);
  const blocks = blocksOf(pressure, values, flow, stretchesOf(pressure, faults), knownPump(segments));
  if (blocks.length < LEAST_BLOCKS) return null;
  const top = quantile(
    blocks.map((block) => block.flow),
    0.995,
  );
  const passing = blocks.filter((b) => !(b.resting && b.flow >= LITTLE * top));
  const varianceAt = (from: number, below: number) => {
    const inside = passing.filter(({ flow: q }) => q >= from && q < below);
    return inside.length < LEAST_AT_AN_END
      ? null
      : quantile(
          inside.map((b) => b.variance),
          0.5,
        );
  };
  const lowest = quantile(
    passing.map((b) => b.flow),
    0.1,
  );
  const [low, high] = [Math.max(LITTLE * top, lowest), MUCH * top];
  if (!(top > 0) || low >= high) return null;
  const [little, middling, much] = [
    varianceAt(Number.NEGATIVE_INFINITY, low * (1 + 1e-9)),
    varianceAt(low * (1 + 1e-9), high),
    varianceAt(high, Number.POSITIVE_INFINITY),
  ];
  if (little === null || much === null) return null;
  const base = Math.max(little, (HIDDEN * levelStep(values)) ** 2);
  const line = leastSquaresLine(
    passing.map(({ flow: q }) => q ** 4),
    passing.map(({ variance }) => variance),
  );
  if (line === null || !Number.isFinite(much / base)) return null;
  const reach = reach95(slopeSpread(passing, line), line.points - 2);
  const withTheSquare = middling === null || middling - base < AT_MIDDLING * (much - base);
  const grows = much > CLEARLY ** 2 * base && line.slope > reach && withTheSquare;
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

/** `resting`: the pump is known to be at rest all the while. */
type Block = { readonly flow: number; readonly variance: number; readonly resting: boolean };

function blocksOf(
  pressure: Channel,
  values: ArrayLike<number>,
  flow: Channel,
  stretches: readonly { first: number; last: number }[],
  pump: PumpState | null,
): Block[] {
  const stride = BLOCK * Math.max(1, Math.floor(values.length / (BLOCK * MOST_BLOCKS)));
  const runs = pump?.runs ?? [];
  let r = 0;
  return stretches.flatMap(({ first, last }) => {
    const blocks: Block[] = [];
    for (let at = first; at + BLOCK <= last + 1; at += stride) {
      const [from, to] = [timeAt(pressure.sampling, at), timeAt(pressure.sampling, at + BLOCK - 1)];
      while (r < runs.length && runs[r].to < from) r++;
      const resting = pump !== null && !(r < runs.length && runs[r].from <= to);
      const q = steadyFlow(flow, from, to);
      const variance = bendVariance(values, at);
      if (q !== null && !Number.isNaN(variance)) blocks.push({ flow: q, variance, resting });
    }
    return blocks;
  });
}

const STEADY_WITHIN = 0.15; // of the flow, within a block

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

const KEPT = 0.8; // of the squares: a bend or two in a block are the water's
/** Mean of the lowest 11 of the 14 squares of a block of normal noise, over 6 times its variance: drawn 400 000 times. */
const MEAN_OF_KEPT = 0.496;

/**
 * Variance of what changes from sample to sample, by second differences (sum of squared weights 6), without the largest squares, so that single bends
 * count for nothing. Not by a median, which is zero wherever steps hide most of the noise.
 */
function bendVariance(values: ArrayLike<number>, from: number): number {
  const squares = new Float64Array(BLOCK - 2);
  for (let i = 0; i < squares.length; i++) squares[i] = (values[from + i] - 2 * values[from + i + 1] + values[from + i + 2]) ** 2;
  squares.sort();
  const kept = Math.floor(KEPT * squares.length);
  let sum = 0;
  for (let i = 0; i < kept; i++) sum += squares[i];
  return sum / kept / (MEAN_OF_KEPT * 6);
}
