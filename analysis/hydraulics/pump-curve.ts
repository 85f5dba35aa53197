import { type PascalDifference, pascalDifference } from "../../shared/units/pressure";
import { type CubicMetrePerSecond, cubicMetrePerSecond } from "../../shared/units/quantity";

/** Pressure rise of a centrifugal pump: dp = s^2 shutoff - r Q^2, s the speed ratio; the quadratic form obeys the affinity laws by itself. */
export type PumpCurve = {
  /** Rise at full speed and no flow, Pa. */
  readonly shutoff: PascalDifference;
  /** r, Pa per (m3/s)^2. */
  readonly steepness: number;
};

/**
 * The curve through one known point: shutoff at 4/3 of the rated rise, nothing left at twice the rated flow.
 * @throws RangeError where one of the two is not above 0
 * Source: EPANET 2.2 manual sec. 3 (single-point curve). A maker's own curve is better.
 */
export function curveFromRatedPoint(flow: CubicMetrePerSecond, rise: PascalDifference): PumpCurve {
  if (!(flow > 0 && rise > 0)) throw new RangeError(`curveFromRatedPoint: ${flow} m3/s, ${rise} Pa`);
  return { shutoff: pascalDifference((rise * 4) / 3), steepness: rise / (3 * flow * flow) };
}

/** Pressure rise at a flow and speed ratio, Pa. Flow not below 0; below 0 the check valve is shut and the curve says nothing. */
export const pumpRise = (curve: PumpCurve, speedRatio: number, flow: CubicMetrePerSecond): PascalDifference =>
  pascalDifference(speedRatio * speedRatio * curve.shutoff - curve.steepness * flow * flow);

/** Flow against a pressure rise, m3/s; 0 where the pump does not reach it. */
export const pumpFlow = (curve: PumpCurve, speedRatio: number, rise: number): CubicMetrePerSecond =>
  cubicMetrePerSecond(Math.sqrt(Math.max(0, speedRatio * speedRatio * curve.shutoff - rise) / curve.steepness));
