import { type Seconds, seconds } from "../../shared/units/quantity";

/** Proportional gain (output per input unit) at which a loop just keeps swinging, and the period of that swing. */
export type UltimatePoint = { readonly gain: number; readonly period: Seconds };

/**
 * A tank fed by a pump is an integrator with delay: dp/dt = k' (s - s0). With proportional control alone: Ku = pi/(2 k' theta), Pu = 4 theta.
 * @param slope k', Pa/s per unit of speed ratio  @param delay theta, s  @throws RangeError where one is not above 0
 * Source: direct substitution (own algebra). theta 0.5 s: Pu 2.0 s.
 */
export function ultimateOfIntegrator(slope: number, delay: Seconds): UltimatePoint {
  if (!(slope > 0 && delay > 0)) throw new RangeError(`ultimateOfIntegrator: slope ${slope}, delay ${delay} s`);
  return { gain: Math.PI / (2 * slope * delay), period: seconds(4 * delay) };
}

/**
 * Ultimate point of a first-order lag with delay: w theta + atan(w tau) = pi, Ku = sqrt(1 + (w tau)^2)/k, Pu = 2 pi/w.
 * @throws RangeError where one of the three is not above 0
 * Source: direct substitution. k = tau = theta = 1: Ku 2.2618, Pu 3.097 s.
 */
export function ultimateOfLag(gain: number, lag: Seconds, delay: Seconds): UltimatePoint {
  if (!(gain > 0 && lag > 0 && delay > 0)) throw new RangeError(`ultimateOfLag: gain ${gain}, lag ${lag} s, delay ${delay} s`);
  let low = 0;
  let high = Math.PI / delay;
  for (let turn = 0; turn < 100; turn++) {
    const middle = (low + high) / 2;
    if (middle * delay + Math.atan(middle * lag) < Math.PI) low = middle;
    else high = middle;
  }
  return { gain: Math.hypot(1, low * lag) / gain, period: seconds((2 * Math.PI) / low) };
}

/**
 * PI setting of an integrator with delay: Kc = 1/(k' (tc + theta)), Ti = 4 (tc + theta); tc = theta is the tight choice, gain margin about 3.
 * Source: Skogestad's SIMC rules (2003). k' 0.1558, theta 0.5, tc 0.5 s: Kc 6.42, Ti 4 s.
 */
export function calmSetting(
  slope: number,
  delay: Seconds,
  closedLoop: Seconds = delay,
): { readonly gain: number; readonly integralTime: Seconds } {
  if (!(slope > 0 && delay >= 0 && closedLoop + delay > 0))
    throw new RangeError(`calmSetting: slope ${slope}, delay ${delay}, closed loop ${closedLoop} s`);
  return { gain: 1 / (slope * (closedLoop + delay)), integralTime: seconds(4 * (closedLoop + delay)) };
}

/**
 * The slow swing of an integrator under PI control that is turned down too far: w0 = sqrt(k' Kc/Ti), damping 0.5 sqrt(k' Kc Ti).
 * Turning the gain down makes this swing worse; it needs k' Kc Ti of at least 4 to be gone.
 * @returns period null where it does not swing  Source: second-order form (own algebra). k' Kc 0.02 1/s, Ti 20 s: damping 0.316, 209 s.
 */
export function slowSwing(
  slope: number,
  gain: number,
  integralTime: Seconds,
): { readonly damping: number; readonly period: Seconds | null } {
  if (!(slope > 0 && gain > 0 && integralTime > 0))
    throw new RangeError(`slowSwing: slope ${slope}, gain ${gain}, integral time ${integralTime} s`);
  const natural = Math.sqrt((slope * gain) / integralTime);
  const damping = 0.5 * Math.sqrt(slope * gain * integralTime);
  return { damping, period: damping >= 1 ? null : seconds((2 * Math.PI) / (natural * Math.sqrt(1 - damping * damping))) };
}
