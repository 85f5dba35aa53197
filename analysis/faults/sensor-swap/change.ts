import type { Channel } from "../../../shared/record/log-record";
import type { SwapSign } from "../../../shared/wording/fault-note";
import { quantiles } from "../../numerics/order-statistics";

/** What a pressure channel shows that another sensor may have done: from sample `at` on. */
export type Change = { readonly at: number; readonly sign: SwapSign };

/** What is known beside the pressure: channels on the same clock that tell what the pump and the water did. */
export type Beside = readonly Channel[];

/** A part on either side needs this many samples, and this share of the record, to be known. */
export const LEAST_SAMPLES = 200;
export const LEAST_SHARE = 0.05;

/** Middle four fifths of some values. */
export function spanOf(values: ArrayLike<number>): number {
  const [low, high] = quantiles(values, [0.1, 0.9]);
  return high - low;
}

/** Ranks tell the block of a change to a few: so many on either side are searched for the very sample. */
export const NEAR = 4;
