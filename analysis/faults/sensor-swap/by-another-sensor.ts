import type { Channel } from "../../../shared/record/log-record";
import { median } from "../../numerics/order-statistics";
import { rankChange } from "../../numerics/pettitt";
import { type Change, LEAST_SAMPLES, LEAST_SHARE, NEAR, spanOf } from "./change";

const BLOCK = 8; // samples
const MOST_BLOCKS = 4000;
const OVERLAP = 0.02; // of the ranks before and after
/** The shift over what the difference does on either side (middle four fifths), and the part of it that lies between two samples. */
const STANDS_OUT = 1.5;
const AT_ONCE = 0.5;

/**
 * Whether a pressure shifts for good against a second pressure on the same clock, at once, and it is this one that moved: whatever pump and water do,
 * both see it, but for the head loss between them, which comes and goes with the flow.
 */
export function changeAgainst(values: Channel["values"], other: Channel["values"]): Change | null {
  const count = Math.min(values.length, other.length);
  const length = Math.max(BLOCK, Math.ceil(count / MOST_BLOCKS));
  const difference = Float64Array.from({ length: count }, (_, i) => values[i] - other[i]);
  const means: number[] = [];
  for (let first = 0; first + length <= count; first += length) means.push(median(difference.subarray(first, first + length)));
  if (means.some((mean) => mean - mean !== 0)) return null;
  const change = rankChange(means, Math.max(Math.ceil(LEAST_SAMPLES / length), Math.ceil(LEAST_SHARE * means.length)));
  if (change === null || Math.min(change.larger, 1 - change.larger) > OVERLAP) return null;
  const [before, after] = [means.slice(0, change.at), means.slice(change.at)];
  const shift = median(after) - median(before);
  if (!(Math.abs(shift) > STANDS_OUT * Math.max(spanOf(before), spanOf(after)))) return null;
  const [from, to] = [Math.max(0, change.at - NEAR) * length, Math.min(count, (change.at + NEAR) * length)];
  let at = from + 1;
  for (let i = from + 1; i < to; i++)
    if (Math.abs(difference[i] - difference[i - 1]) > Math.abs(difference[at] - difference[at - 1])) at = i;
  const step = difference[at] - difference[at - 1];
  const isOwn = Math.abs(values[at] - values[at - 1]) > Math.abs(other[at] - other[at - 1]);
  return step / shift > AT_ONCE && isOwn ? { at, sign: "against-another" } : null;
}
