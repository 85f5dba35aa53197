import { type Random, seededRandom } from "../../analysis/numerics/random";

/** Noise with standard deviation 1: white, AR(1) with a coefficient, or AR(1) plus white of the same size (then sd is root two). */
export function noiseOf(count: number, chance: Random, memory = 0, white = 0): Float64Array {
  const fresh = Math.sqrt(1 - memory * memory);
  let x = chance.normal();
  return Float64Array.from({ length: count }, () => {
    x = memory * x + fresh * chance.normal();
    return x + (white > 0 ? white * chance.normal() : 0);
  });
}

export type ToneSignal = {
  readonly count: number;
  /** Samples. */
  readonly period: number;
  readonly amplitude: number;
  readonly from?: number;
  readonly to?: number;
};

/** Adds a sine to part of a column, in place; its phase by chance. */
export function addTone(
  values: Float64Array,
  chance: Random,
  { period, amplitude, from = 0, to = values.length }: Omit<ToneSignal, "count">,
): Float64Array {
  const phase = 2 * Math.PI * chance.next();
  for (let i = from; i < to; i++) values[i] += amplitude * Math.sin((2 * Math.PI * i) / period + phase);
  return values;
}

export { seededRandom };
