import { quantiles } from "./order-statistics";
import type { Random } from "./random";

/**
 * 95 % interval of a statistic by resampling whole blocks (days, hours, runs) with seeded chance. Too narrow with fewer than about twenty
 * blocks: the caller says how many there were. Source: Kuensch 1989; percentile interval, Efron 1979.
 * @param blocks any pieces that may count as independent   @param statistic of a list of pieces; NaN results are left out
 * @returns null with fewer than two blocks
 */
export function blockBootstrap<Block>(
  blocks: readonly Block[],
  statistic: (sample: readonly Block[]) => number,
  chance: Random,
  rounds = 1000,
  level = 0.95,
): { readonly value: number; readonly low: number; readonly high: number } | null {
  if (blocks.length < 2) return null;
  const results = new Float64Array(rounds);
  const sample: Block[] = blocks.slice();
  for (let round = 0; round < rounds; round++) {
    for (let i = 0; i < sample.length; i++) sample[i] = blocks[chance.below(blocks.length)];
    results[round] = statistic(sample);
  }
  const [low, high] = quantiles(results, [(1 - level) / 2, (1 + level) / 2]);
  const value = statistic(blocks);
  return { value, low: Math.min(low, value), high: Math.max(high, value) };
}

/** A column cut into runs of `length` values that follow each other, the last one shorter. */
export function blocksOf(values: Float64Array, length: number): Float64Array[] {
  const blocks: Float64Array[] = [];
  for (let from = 0; from < values.length; from += length) blocks.push(values.subarray(from, Math.min(values.length, from + length)));
  return blocks;
}
