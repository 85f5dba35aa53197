import type { TankChargeFinding } from "../../shared/findings/finding";
import { isCannotTell, type LivingTank, type PumpState } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { Measured } from "../../shared/units/measured";
import { absolutePascal, gaugePascal, toAbsolute } from "../../shared/units/pressure";
import { type CubicMetre, cubicMetre, type Joule, joule } from "../../shared/units/quantity";
import { gasConstant } from "../hydraulics/gas-constant";
import { knownPump } from "../segments/starts";
import { switchingPressures } from "../segments/switching-pressures";
import type { Detector, Evidence } from "./detector";

/**
 * What the tank is worth today: the gas constant K = p0 Vt from metered draws with the pump off, the pressure at which it empties (its true precharge) or
 * a bound for it, and the water between cut-out and cut-in. K alone does not tell a low charge from a small or water-logged tank.
 */
export const tankCharge: Detector<"tank-charge"> = {
  kind: "tank-charge",
  detect(evidence) {
    const kind = "tank-charge" as const;
    const { tank } = evidence.segments;
    if (isCannotTell(tank)) return { kind, state: "cannot-tell", because: [tank] };
    const { gasConstant: k, emptiesAt, emptiesBelow, windows } = tank;
    const finding: TankChargeFinding = {
      kind,
      places: windows,
      channels: ["pressure" as const, "flow" as const].flatMap((role) => mainChannel(evidence.record, role)?.heading ?? []),
      gasConstant: { value: joule(k.value), low: joule(k.low), high: joule(k.high) },
      emptiesAt:
        emptiesAt === null
          ? null
          : { value: gaugePascal(emptiesAt.value), low: gaugePascal(emptiesAt.low), high: gaugePascal(emptiesAt.high) },
      emptiesBelow: emptiesBelow === null ? null : gaugePascal(emptiesBelow),
      liveDrawdown: liveDrawdown(tank, evidence, knownPump(evidence.segments)),
      expectedGasConstant: expected(evidence.site),
    };
    return { kind, state: "found", finding, limits: [] };
  },
};

/** V = K (1/p_in - 1/p_out), absolute, with K of all that gives and the pressures at starts and stops; below the knee the tank gives nothing more. */
function liveDrawdown(
  { give, emptiesAt }: LivingTank,
  { record, faults, site }: Evidence,
  pump: PumpState | null,
): Measured<CubicMetre> | null {
  const pressure = mainChannel(record, "pressure");
  if (pump === null || pressure === null) return null;
  const { cutIn, cutOut } = switchingPressures(pump, pressure, faults);
  if (cutIn === null || cutOut === null) return null;
  const lowest = toAbsolute(gaugePascal(Math.max(cutIn.value, emptiesAt?.value ?? Number.NEGATIVE_INFINITY)), site.atmosphere.value);
  const perJoule = 1 / lowest - 1 / toAbsolute(gaugePascal(cutOut.value), site.atmosphere.value);
  if (!(perJoule > 0)) return null;
  return { value: cubicMetre(give.value * perJoule), low: cubicMetre(give.low * perJoule), high: cubicMetre(give.high * perJoule) };
}

function expected({ tankVolume, precharge, atmosphere }: SiteFacts): Joule | null {
  if (tankVolume === null || precharge === null) return null;
  return gasConstant(tankVolume.value, absolutePascal(toAbsolute(precharge.value, atmosphere.value)));
}
