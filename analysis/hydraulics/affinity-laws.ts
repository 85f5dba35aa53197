import { type CubicMetrePerSecond, cubicMetrePerSecond, type Metre, metre, type Watt, watt } from "../../shared/units/quantity";

/**
 * A point of a pump's curve carried to another speed: Q ~ s, H ~ s^2, P ~ s^3.
 * Same impeller, similar points; it does not follow a system with static head, nor the efficiency at low speed.
 * @param speedRatio s, not below 0  @throws RangeError otherwise
 * Source: EPANET 2.2 manual ch. 12. 100 gpm, 140 ft, 5 hp at 80 %: 80 gpm, 89.6 ft, 2.56 hp.
 */
export function atSpeed(
  point: { readonly flow: CubicMetrePerSecond; readonly head: Metre; readonly power: Watt },
  speedRatio: number,
): { readonly flow: CubicMetrePerSecond; readonly head: Metre; readonly power: Watt } {
  if (!(speedRatio >= 0)) throw new RangeError(`atSpeed: speed ratio ${speedRatio}`);
  return {
    flow: cubicMetrePerSecond(point.flow * speedRatio),
    head: metre(point.head * speedRatio ** 2),
    power: watt(point.power * speedRatio ** 3),
  };
}
