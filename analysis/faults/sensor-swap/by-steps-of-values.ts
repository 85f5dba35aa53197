import type { Channel } from "../../../shared/record/log-record";
import { differentIn } from "../../numerics/distinct-values";
import { rankChange } from "../../numerics/pettitt";
import { valueStep } from "../../numerics/value-step";
import { type Change, LEAST_SAMPLES, NEAR } from "./change";

const BLOCK = 64; // samples
const MOST_BLOCKS = 2000;
const LEAST_BLOCKS = 4;
const OVERLAP = 0.1; // of the ranks before and after
/** Steps of the values before over those after, or the other way round. */
const CLEARLY = 1.7;

/**
 * Whether the readings are stepped otherwise from a sample on: another converter. The share of different readings in a block changes (by ranks, Pettitt 1979),
 * and the steps of the values on either side are unlike, which nothing in the water can do.
 */
export function changeOfSteps(values: Channel["values"]): Change | null {
  const length = Math.max(BLOCK, Math.ceil(values.length / MOST_BLOCKS));
  const shares: number[] = [];
  const different = differentIn(length);
  for (let first = 0; first + length <= values.length; first += length) shares.push(different(values, first, first + length) / length);
  const change = rankChange(shares, LEAST_BLOCKS);
  if (change === null || Math.min(change.larger, 1 - change.larger) > OVERLAP) return null;
  const [edge, end] = [Math.max(0, change.at - NEAR) * length, Math.min(values.length, (change.at + NEAR) * length)];
  if (edge < LEAST_SAMPLES || values.length - end < LEAST_SAMPLES) return null;
  const [before, after] = [valueStep(values.subarray(0, edge)), valueStep(values.subarray(end))];
  const [fine, coarse] = [Math.min(before, after), Math.max(before, after)];
  if (!(fine > 0 && coarse > CLEARLY * fine)) return null;
  const at = firstOffGrid(values, edge, end, before > after ? 1 : -1, coarse);
  return { at, sign: "steps" };
}

/** First reading that is no whole number of coarse steps from the coarse side's, seen from that side. */
function firstOffGrid(values: Channel["values"], edge: number, end: number, way: 1 | -1, step: number): number {
  const anchor = values[way === 1 ? edge : end - 1];
  for (let i = way === 1 ? edge : end - 1; i >= edge && i < end; i += way) {
    const steps = (values[i] - anchor) / step;
    if (Math.abs(steps - Math.round(steps)) > 0.1) return way === 1 ? i : i + 1;
  }
  return way === 1 ? end : edge;
}
