import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";

/** Ratio of specific heats of air and nitrogen. */
export const GAMMA = 1.4;
const LONGEST_STEP = 4; // time constants; after such a pause nothing is left of the heat

/**
 * Excess temperature of the gas in a tank, as a share of its absolute temperature, from the pressure alone. Gas that is squeezed warms, gas that gives water
 * out cools, and the wall takes the difference away with a time constant tau. With V = K (1 + theta) / p and d theta/dt = -(gamma - 1) (1 + theta) d ln V/dt - theta / tau
 * it follows that d ln(1 + theta) = (gamma - 1)/gamma d ln p - theta / ((1 + theta) gamma tau) dt: a squeeze multiplies 1 + theta by a power of the pressure's ratio,
 * and between squeezes theta dies as exp(-t / (gamma tau)). A filter over the pressure, whatever pump and draws did.
 * A plunge of a tank that is empty for a moment goes down and up and leaves next to nothing.
 * Source: first law for an ideal gas beside a wall of one temperature, the usual thermal time constant of accumulators.
 * @param absolute Pa of a sample  @param empty Pa gauge under which the tank is empty and its gas fills it
 * @returns by tau, s (0: the gas keeps its temperature), shape [n]; the array is used again by the next call. The logarithms are taken once for all of them.
 * Worked: p from 4 to 5 bar absolute at one go with tau long: theta = 1.25^0.2857 - 1 = 0.066 (adiabatic), to first order 0.0638.
 */
export function gasHeat(
  values: ArrayLike<number>,
  sampling: Sampling,
  atmosphere: number,
  empty = Number.NEGATIVE_INFINITY,
): (tau: number) => Float64Array {
  const logs = new Float64Array(values.length);
  for (let i = 0; i < logs.length; i++) logs[i] = Math.log(Math.max(values[i], empty) + atmosphere);
  const theta = new Float64Array(values.length);
  return (tau) => (tau === 0 ? theta.fill(0) : heatOf(logs, sampling, tau, theta));
}

/** Samples worked through by one call of `warmOn`. */
const PIECE = 4096;

/** What is carried from piece to piece: last log and its instant, heat, last step with what half of it keeps. */
type Carried = { before: number; heat: number; time: number; step: number; midway: number };

function heatOf(logs: Float64Array, sampling: Sampling, tau: number, theta: Float64Array): Float64Array {
  const carried: Carried = { before: Number.NaN, heat: 0, time: 0, step: Number.NaN, midway: 1 };
  for (let first = 0; first < logs.length; first += PIECE)
    warmOn(logs, sampling, tau, theta, first, Math.min(logs.length, first + PIECE), carried);
  return theta;
}

/** Piece by piece, since the engine keeps the running figures of a function that is called anew in registers, those of one endless loop it does not. */
function warmOn(
  logs: Float64Array,
  sampling: Sampling,
  tau: number,
  theta: Float64Array,
  first: number,
  end: number,
  carried: Carried,
): void {
  const share = (GAMMA - 1) / GAMMA;
  let { before, heat, time, step, midway } = carried;
  for (let i = first; i < end; i++) {
    const log = logs[i];
    if (log - log !== 0) {
      theta[i] = heat;
      continue;
    }
    const t = timeAt(sampling, i);
    if (t - time !== step) {
      step = t - time;
      midway = Math.exp(-step / (2 * GAMMA * tau));
    }
    const known = before - before === 0 && step < LONGEST_STEP * tau;
    if (known) {
      const squeeze = share * (log - before);
      const midst = heat * midway;
      heat = (midst + (1 + midst) * squeeze * (1 + squeeze / 2)) * midway; // half the pause before, half after; exp to second order
    } else heat = 0;
    theta[i] = heat;
    before = log;
    time = t;
  }
  carried.before = before;
  carried.heat = heat;
  carried.time = time;
  carried.step = step;
  carried.midway = midway;
}
