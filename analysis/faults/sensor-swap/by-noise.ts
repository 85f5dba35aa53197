import type { Channel } from "../../../shared/record/log-record";
import { median, selectInPlace } from "../../numerics/order-statistics";
import { rankChange } from "../../numerics/pettitt";
import { type Beside, type Change, LEAST_SHARE, NEAR, spanOf } from "./change";

const BLOCK = 32; // samples
const MOST_BLOCKS = 4000;
const LEAST_BLOCKS = 10;
/** Noise before over noise after, or the other way round, and how little the two may overlap. */
const CLEARLY = 1.8;
const OVERLAP = 0.03;
/** The water must move in both parts as it did: spans within this ratio, and well over the noise. Else the pump may only have stopped for the night. */
const AS_ACTIVE = 3;
const OVER_NOISE = 3;
/** Where the pump or the water changed with it, it is they that make the noise. */
const BESIDE_OVERLAP = 0.15;
/** What changes from sample to sample is the sensor's noise only where samples come this fast, s. */
export const SLOWEST = 15;

type Block = { readonly first: number; readonly noise: number; readonly level: number };

/**
 * Whether the noise from sample to sample changes once for all while the water goes on as before. Noise of whole blocks by second differences, a change by
 * ranks (Pettitt 1979), narrowed to a sample by the likelihood of two variances.
 */
export function changeOfNoise(values: Channel["values"], beside: Beside): Change | null {
  const length = Math.max(BLOCK, Math.ceil(values.length / MOST_BLOCKS));
  const blocks: Block[] = [];
  const squares = new Float64Array(length);
  for (let first = 0; first + length <= values.length; first += length) {
    const block = blockOf(values, first, length, squares);
    if (block !== null) blocks.push(block);
  }
  const noises = blocks.map((block) => block.noise);
  const change = rankChange(noises, Math.max(LEAST_BLOCKS, Math.ceil(LEAST_SHARE * blocks.length)));
  if (change === null || Math.min(change.larger, 1 - change.larger) > OVERLAP) return null;
  const [before, after] = [blocks.slice(0, change.at), blocks.slice(change.at)];
  const [quiet, loud] = [before, after].map((part) => median(part.map((block) => block.noise))).sort((a, b) => a - b);
  if (!(loud > CLEARLY * quiet) || !isAsActive(before, after, loud)) return null;
  if (beside.some((channel) => changesToo(channel, blocks, change.at, length))) return null;
  const [from, to] = [change.at - NEAR, change.at + NEAR].map((k) => blocks[Math.min(blocks.length - 1, Math.max(0, k))].first);
  return { at: variancesPart(values, from, to), sign: "noise" };
}

/**
 * Standard deviation of what changes from sample to sample, without the largest fifth: single bends are the water's. Null where much is missing.
 * @param squares room for the squares of a block, shape [length]
 */
function blockOf(values: Channel["values"], first: number, length: number, squares: Float64Array): Block | null {
  let sum = 0;
  let count = 0;
  let bends = 0;
  for (let i = first; i < first + length; i++) {
    if (values[i] - values[i] !== 0) continue;
    sum += values[i];
    count++;
    const bend = i < first + 2 ? Number.NaN : values[i] - 2 * values[i - 1] + values[i - 2];
    if (bend - bend === 0) squares[bends++] = bend * bend;
  }
  if (bends < length / 2) return null;
  const kept = Math.floor(0.8 * bends);
  return { first, noise: Math.sqrt(meanOfLeast(squares, bends, kept) / 6), level: sum / count };
}

/** Mean of the least `kept` of the first n values, which it puts into another order. */
function meanOfLeast(values: Float64Array, n: number, kept: number): number {
  selectInPlace(values, kept, 0, n - 1);
  let total = 0;
  for (let i = 0; i < kept; i++) total += values[i];
  return total / kept;
}

function isAsActive(before: readonly Block[], after: readonly Block[], noise: number): boolean {
  const [a, b] = [before, after].map((part) => spanOf(part.map((block) => block.level)));
  return a < AS_ACTIVE * b && b < AS_ACTIVE * a && Math.min(a, b) > OVER_NOISE * noise * MEAN_OF_BLOCK;
}
/** Noise of a block's mean over that of a sample. */
const MEAN_OF_BLOCK = 1 / Math.sqrt(BLOCK);

function changesToo({ values }: Channel, blocks: readonly Block[], at: number, length: number): boolean {
  const means = blocks.map(({ first }) => {
    let sum = 0;
    for (let i = first; i < first + length; i++) sum += values[i];
    return sum / length;
  });
  const known = means.filter((mean) => mean - mean === 0);
  if (known.length < means.length) return false;
  let [pairs, larger] = [0, 0];
  const stride = Math.max(1, Math.floor(means.length / 400));
  for (let a = 0; a < at; a += stride)
    for (let b = at; b < means.length; b += stride) {
      pairs++;
      larger += means[b] > means[a] ? 1 : means[b] === means[a] ? 0.5 : 0;
    }
  return Math.min(larger, pairs - larger) < BESIDE_OVERLAP * pairs;
}

/** Likeliest sample at which second differences change their variance (normal values); missing readings are passed over. */
function variancesPart(values: Channel["values"], from: number, to: number): number {
  const places: number[] = [];
  const squares: number[] = [];
  for (let i = from + 2; i < to; i++) {
    const bend = values[i] - 2 * values[i - 1] + values[i - 2];
    if (bend - bend !== 0) continue;
    places.push(i);
    squares.push(bend * bend);
  }
  const usual = median(squares);
  const clipped = squares.map((square) => Math.min(square, 30 * usual));
  const total = clipped.reduce((sum, square) => sum + square, 0);
  let [sum, best, at] = [0, Number.POSITIVE_INFINITY, from];
  for (let k = 1; k < clipped.length; k++) {
    sum += clipped[k - 1];
    const left = clipped.length - k;
    if (k < 6 || left < 6) continue;
    const cost = k * Math.log(sum / k + Number.MIN_VALUE) + left * Math.log((total - sum) / left + Number.MIN_VALUE);
    if (cost < best) [best, at] = [cost, places[k]];
  }
  return at;
}
