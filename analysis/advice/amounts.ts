import type { Amount, InputId } from "../../shared/findings/advice";
import type { Fact } from "../../shared/site/site-facts";
import { absolutePascal, PASCAL_PER_PSI } from "../../shared/units/pressure";
import { cubicMetre, cubicMetrePerSecond, joule, metre } from "../../shared/units/quantity";
import { cutInOf, cutOutOf, found, isFixedSpeed, type Seen, setPressureOf } from "../diagnosis/observations/sight";
import { PRACTICE_SHARE_OF_MINUTE, PRECHARGE_BELOW_SET, SENSOR_WITHIN } from "../diagnosis/practice";
import { drawdown } from "../hydraulics/drawdown";
import { inertance } from "../hydraulics/inertance";
import { surgePeriod } from "../hydraulics/surge-period";
import { tankCompliance } from "../hydraulics/tank-compliance";
import { tankForStarts } from "../hydraulics/tank-for-starts";
import { waterHeld } from "../hydraulics/water-held";

type Input = Amount["inputs"][number];
type Given = { readonly value: number; readonly from: Input["from"] };
const MINUTE = 60; // s
/** With a pressure switch the charge stands 2 psi below cut-in. Well-owners' trade-body sheet. */
const BELOW_CUT_IN = 2 * PASCAL_PER_PSI;
/** Starts per hour allowed where neither the site's limit nor motor power says: 15, pumps up to 3/4 hp (pressurised well-tank standard). */
const STARTS_WITHOUT_FACTS = 15;
/** Gas exponents of slow and fast changes: the spread of a surge period. */
const EXPONENTS = { slow: 1, fast: 1.4 };

const input = (name: InputId, quantity: Input["quantity"], { value, from }: Given): Input => ({ name, quantity, value, from });
const given = (fact: Fact<number> | null): Given | null => (fact === null ? null : { value: fact.value, from: fact.from });
const amount = (
  id: Amount["id"],
  quantity: Amount["quantity"],
  basis: Amount["basis"],
  [low, high]: readonly [number, number],
  inputs: readonly Input[],
): Amount => ({ id, quantity, basis, low, high, inputs });

/** Set pressure with where it is from. */
export const setOf = (seen: Seen): Given | null => {
  const fact = given(seen.site.setPressure);
  const read = setPressureOf(seen);
  return fact ?? (read === null ? null : { value: read, from: "log" });
};
const read = (fact: Fact<number> | null, logged: number | null): Given | null =>
  given(fact) ?? (logged === null ? null : { value: logged, from: "log" });
const airOf = (seen: Seen): Given => ({ value: seen.site.atmosphere.value, from: seen.site.atmosphere.from });

/** Where the pump starts and stops again: the switch's two pressures, or restart and set pressure of a drive. */
export function switchingOf(seen: Seen): { readonly low: Given; readonly high: Given } | null {
  const low = isFixedSpeed(seen.site) ? read(seen.site.cutIn, cutInOf(seen)) : read(seen.site.restartPressure, cutInOf(seen));
  const high = isFixedSpeed(seen.site) ? read(seen.site.cutOut, cutOutOf(seen)) : (setOf(seen) ?? read(null, cutOutOf(seen)));
  return low === null || high === null || !(high.value > low.value) ? null : { low, high };
}

/** Charge to aim for, Pa gauge: both ends, and the reading it follows. Null where that is not known or no charge is left above the air's own. */
export function chargeBand(
  seen: Seen,
): { readonly low: number; readonly high: number; readonly follows: Given; readonly fixed: boolean } | null {
  const fixed = isFixedSpeed(seen.site);
  const follows = fixed ? read(seen.site.cutIn, cutInOf(seen)) : setOf(seen);
  if (follows === null) return null;
  const low = follows.value - (fixed ? BELOW_CUT_IN : PRECHARGE_BELOW_SET.high);
  const high = follows.value - (fixed ? BELOW_CUT_IN : PRECHARGE_BELOW_SET.low);
  return low > 0 ? { low, high, follows, fixed } : null;
}

/** Whether drift at steady flow passed the limit; null where it could not be looked at. */
export function driftsOver({ outcomes }: Seen): boolean | null {
  const drift = outcomes.find((o) => o.kind === "drift");
  if (drift === undefined || drift.state === "cannot-tell" || drift.state === "broken") return null;
  return drift.state === "found" && drift.finding.kind === "drift" && drift.finding.windows.some((w) => w.over);
}

/**
 * Precharge by common practice: 15 to 20 psi below set pressure; where drift at steady flow is over its limit only the higher setting,
 * 15 psi below, which is the softer one (C = p0 Vt / p2). With a pressure switch 2 psi below cut-in.
 */
export function prechargeByPractice(seen: Seen): Amount | null {
  const band = chargeBand(seen);
  if (band === null) return null;
  if (band.fixed)
    return amount(
      "precharge-by-switch-practice",
      "gaugePressure",
      "common practice",
      [band.low, band.high],
      [input("cut-in", "gaugePressure", band.follows)],
    );
  const low = driftsOver(seen) === true ? band.high : band.low;
  return amount(
    "precharge-by-practice",
    "gaugePressure",
    "common practice",
    [low, band.high],
    [input("set-pressure", "gaugePressure", band.follows)],
  );
}

/** The charge that the gas at work amounts to, p0 = K / Vt less the air's pressure, with K's interval; null without K or tank volume. */
export function prechargeNow(seen: Seen): Amount | null {
  const constant = found(seen, "tank-charge")?.gasConstant ?? null;
  const volume = given(seen.site.tankVolume);
  if (constant === null || volume === null) return null;
  const air = airOf(seen);
  const gauge = (k: number) => k / volume.value - air.value;
  return amount(
    "precharge-now",
    "gaugePressure",
    "physics",
    [gauge(constant.low), gauge(constant.high)],
    [
      input("gas-constant", "energy", { value: constant.value, from: "log" }),
      input("tank-volume", "volume", volume),
      input("air-pressure", "absolutePressure", air),
    ],
  );
}

/** What each end of the band does at set pressure: softness C = p0 Vt / p2, and water held Vt (1 - p0/p). Empty with a pressure switch or without facts. */
export function endsOfBand(seen: Seen): Amount[] {
  const [band, volume] = [chargeBand(seen), given(seen.site.tankVolume)];
  if (band === null || band.fixed || volume === null) return [];
  const air = airOf(seen);
  const at = absolutePascal(band.follows.value + air.value);
  const inputs = (charge: number): Input[] => [
    input("tank-volume", "volume", volume),
    input("precharge", "gaugePressure", { value: charge, from: "practice" }),
    input("set-pressure", "gaugePressure", band.follows),
    input("air-pressure", "absolutePressure", air),
  ];
  const ends = [
    { charge: band.low, softness: "softness-lower-setting", water: "stored-water-lower-setting" },
    { charge: band.high, softness: "softness-higher-setting", water: "stored-water-higher-setting" },
  ] as const;
  return ends.flatMap(({ charge, softness, water }) => {
    const absolute = absolutePascal(charge + air.value);
    const c = tankCompliance(joule(absolute * volume.value), at);
    const held = waterHeld(cubicMetre(volume.value), absolute, at);
    return [
      amount(softness, "compliance", "physics", [c, c], inputs(charge)),
      amount(water, "volume", "physics", [held, held], inputs(charge)),
    ];
  });
}

/** Total volume by common practice with a drive: at least a fifth of what the pump gives in a minute. Null with a pressure switch. */
export function tankVolumeByPractice(seen: Seen): Amount | null {
  const flow = given(seen.site.pumpRatedFlow);
  if (flow === null || isFixedSpeed(seen.site)) return null;
  const volume = PRACTICE_SHARE_OF_MINUTE * flow.value * MINUTE;
  return amount("tank-volume-by-practice", "volume", "common practice", [volume, volume], [input("pump-flow", "flow", flow)]);
}

/** Charge to reckon a new tank with: the middle of the band, never above where the pump starts. */
function chargeForSizing(seen: Seen, low: number): number | null {
  const band = chargeBand(seen);
  return band === null ? null : Math.min((band.low + band.high) / 2, low);
}

/**
 * Total volume by physics, Boyle's law between where the pump starts and stops: so that a run lasts the wanted time at no other draw
 * (drawdown = Q t), and so that starts stay within the allowed at the worst draw (drawdown = Q T / 4). Empty where facts are missing.
 */
export function tankVolumeByPhysics(seen: Seen): Amount[] {
  const [flow, between] = [given(seen.site.pumpRatedFlow), switchingOf(seen)];
  if (flow === null || between === null) return [];
  const charge = chargeForSizing(seen, between.low.value);
  if (charge === null) return [];
  const air = airOf(seen);
  const [p0, low, high] = [charge, between.low.value, between.high.value].map((p) => absolutePascal(p + air.value));
  const starts = allowedOf(seen);
  const shared: Input[] = [
    input("pump-flow", "flow", flow),
    input("cut-in", "gaugePressure", between.low),
    input("cut-out", "gaugePressure", between.high),
    input("precharge", "gaugePressure", { value: charge, from: "practice" }),
    input("air-pressure", "absolutePressure", air),
  ];
  const runTime = { value: seen.site.shortCycleLimit.value, from: seen.site.shortCycleLimit.from };
  const share = drawdown(cubicMetre(1), p0, high, low);
  const byRun = (flow.value * runTime.value) / share;
  const byStarts = tankForStarts(cubicMetrePerSecond(flow.value), starts.value, high, low, p0);
  return [
    amount("tank-volume-by-run-time", "volume", "physics", [byRun, byRun], [...shared, input("run-time", "time", runTime)]),
    amount("tank-volume-by-starts", "volume", "physics", [byStarts, byStarts], [...shared, input("starts-per-hour", "perHour", starts)]),
  ];
}

function allowedOf(seen: Seen): Given {
  const site = given(seen.site.limits.startsPerHour);
  const motor = isFixedSpeed(seen.site) ? (found(seen, "cycling")?.allowedStartsPerHour ?? null) : null;
  return site ?? (motor === null ? { value: STARTS_WITHOUT_FACTS, from: "assumed" } : { value: motor, from: "given" });
}

/** Sensor within 10 ft of the tank. */
export function sensorDistanceByPractice(seen: Seen): Amount {
  const now = given(seen.site.sensorToTank);
  return amount(
    "sensor-distance-by-practice",
    "length",
    "common practice",
    [0, SENSOR_WITHIN],
    now === null ? [] : [input("sensor-distance", "length", now)],
  );
}

/** Period of the water between sensor and tank, where it stands and moved to 10 ft: T = 2 pi sqrt(I C), C with n from 1.4 to 1. Empty without facts. */
export function surgePeriods(seen: Seen): Amount[] {
  const { sensorToTank, pipeInsideDiameter, tankVolume, precharge } = seen.site;
  const set = setOf(seen);
  const living = found(seen, "tank-charge")?.gasConstant?.value ?? null;
  const air = airOf(seen);
  const constant: Given | null =
    living !== null
      ? { value: living, from: "log" }
      : tankVolume === null || precharge === null
        ? null
        : { value: tankVolume.value * (precharge.value + air.value), from: "given" };
  if (sensorToTank === null || pipeInsideDiameter === null || set === null || constant === null) return [];
  const at = absolutePascal(set.value + air.value);
  const period = (distance: number, n: number) =>
    surgePeriod(inertance(metre(distance), pipeInsideDiameter.value), tankCompliance(joule(constant.value), at, n));
  const one = (id: "surge-period-now" | "surge-period-moved", distance: Given) =>
    amount(
      id,
      "time",
      "physics",
      [period(distance.value, EXPONENTS.fast), period(distance.value, EXPONENTS.slow)],
      [
        input("sensor-distance", "length", distance),
        input("pipe-bore", "length", { value: pipeInsideDiameter.value, from: pipeInsideDiameter.from }),
        input("gas-constant", "energy", constant),
        input("set-pressure", "gaugePressure", set),
      ],
    );
  const now = one("surge-period-now", { value: sensorToTank.value, from: sensorToTank.from });
  return sensorToTank.value > SENSOR_WITHIN ? [now, one("surge-period-moved", { value: SENSOR_WITHIN, from: "assumed" })] : [now];
}
