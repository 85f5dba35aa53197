import type { Comparison } from "../../shared/findings/comparison";
import { quantiles } from "../numerics/order-statistics";

/** Weights per block that give both visits a like use: by the water drawn, else by the hours of the day; null where nothing is weighed. */
export type Match = {
  readonly by: Comparison["matchedBy"];
  readonly before: readonly number[] | null;
  readonly after: readonly number[] | null;
  /** Share of all blocks that have a like one in the other visit; null where nothing is weighed. */
  readonly share: number | null;
};

export const NO_MATCH: Match = { by: null, before: null, after: null, share: null };
const CLASSES = 3; // small, middle and large draws

/**
 * Post-stratification on the water drawn per block: classes at the pooled thirds, each class weighed to its share of both visits together.
 * A class that one visit lacks cannot be compared and gets weight 0 in both.
 * @returns null where one visit has no flow
 */
export function matchDemand(before: readonly number[] | null, after: readonly number[] | null): Match | null {
  if (before === null || after === null) return null;
  const cuts = quantiles([...before, ...after], [1 / 3, 2 / 3]);
  const classOf = (drawn: number) => cuts.filter((cut) => drawn > cut).length;
  const count = (drawn: readonly number[]) => Array.from({ length: CLASSES }, (_, c) => drawn.filter((d) => classOf(d) === c).length);
  const [nBefore, nAfter] = [count(before), count(after)];
  const shared = nBefore.map((n, c) => (n > 0 && nAfter[c] > 0 ? n + nAfter[c] : 0));
  const total = shared.reduce((a, b) => a + b, 0);
  if (total === 0) return null;
  const weigh = (drawn: readonly number[], own: readonly number[]) =>
    drawn.map((d) => (own[classOf(d)] > 0 ? (shared[classOf(d)] / total) * (drawn.length / own[classOf(d)]) : 0));
  return { by: "demand", before: weigh(before, nBefore), after: weigh(after, nAfter), share: total / (before.length + after.length) };
}
