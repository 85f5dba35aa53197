import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";

/** Ratio of specific heats of air and nitrogen. */
const GAMMA = 1.4;
const LONGEST_STEP = 4; // time constants; after such a pause nothing is left of the heat

/**
 * Excess temperature of the gas in a tank, as a share of its absolute temperature, from the pressure alone. Gas that is squeezed warms, gas that gives water
 * out cools, and the wall takes the difference away with a time constant tau. With V = K (1 + theta) / p and d theta/dt = -(gamma - 1) d ln V/dt - theta / tau
 * it follows that d theta = (gamma - 1)/gamma d ln p - theta / (gamma tau) dt: a filter over the pressure, whatever pump and draws did.
 * A plunge of a tank that is empty for a moment goes down and up and leaves next to nothing.
 * Source: first law for an ideal gas beside a wall of one temperature, the usual thermal time constant of accumulators.
 * @param absolute Pa of a sample  @param tau s; 0: the gas keeps its temperature  @param empty Pa gauge under which the tank is empty and its gas fills it
 * Worked: p from 4 to 5 bar absolute at one go with tau long: theta = 1.25^0.2857 - 1 = 0.066 (adiabatic), to first order 0.0638.
 */
export function gasHeat(
  values: ArrayLike<number>,
  sampling: Sampling,
  atmosphere: number,
  tau: number,
  empty = Number.NEGATIVE_INFINITY,
): Float64Array {
  const theta = new Float64Array(values.length);
  if (tau === 0) return theta;
  const share = (GAMMA - 1) / GAMMA;
  let [before, heat, time, step, kept] = [Number.NaN, 0, 0, Number.NaN, 1];
  for (let i = 0; i < theta.length; i++) {
    const log = Math.log(Math.max(values[i], empty) + atmosphere);
    if (log - log !== 0) {
      theta[i] = heat;
      continue;
    }
    const t = timeAt(sampling, i);
    if (t - time !== step) {
      step = t - time;
      kept = Math.exp(-step / (GAMMA * tau));
    }
    const known = before - before === 0 && step < LONGEST_STEP * tau;
    heat = known ? heat * kept + share * (log - before) * Math.sqrt(kept) : 0;
    theta[i] = heat;
    before = log;
    time = t;
  }
  return theta;
}
