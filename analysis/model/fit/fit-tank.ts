import type { FindingOf } from "../../../shared/findings/finding";
import type { FittedParameter } from "../../../shared/findings/what-if";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { PASCAL_PER_PSI } from "../../../shared/units/pressure";
import { clusteredRegression } from "../../numerics/clustered-regression";
import { inLog, onLine, widened } from "./estimate";
import type { Trace } from "./trace";

/** Gas constant, tank volume and the losses that no meter after the tank sees. */
export type FittedTank = {
  readonly gasConstant: FittedParameter;
  readonly volume: FittedParameter;
  readonly backLeak: FittedParameter;
  readonly systemLeak: FittedParameter;
};

const USUAL_BELOW_SET = 17.5 * PASCAL_PER_PSI; // common practice: 15 to 20 psi
const LEAST_CHARGE = 0.3; // of the set pressure, where 17.5 psi below it would be no charge at all
const USUAL_TANK_SHARE = 0.3; // of the pump's per-minute capacity; common practice asks for at least 0.2
const FORM_ERROR = 0.015; // of the logarithm: pipes stretch beside the gas, and the gas warms and cools a little
const VALVE_CLOSES = 4; // s after a stop in which the pump still gives
const LEAST_FALL = 4e3; // Pa a stretch must fall, so that noise does not lead
const LEAST_STRETCHES = 6;

/**
 * While the pump rests, 1/p rises by what leaves the tank: d(1/p) = (metered + unseen) / K. Regressed over all rests, each a cluster.
 * The metered volume is the exact side, so 1/p is taken as the answer. A detector's own figures come first where they are there.
 */
export function fitTank(
  trace: Trace,
  site: SiteFacts,
  charge: FindingOf<"tank-charge"> | null,
  leak: FindingOf<"leak-down"> | null,
  setPressure: number,
): FittedTank {
  const air = site.atmosphere.value;
  const measured = charge?.gasConstant ?? null;
  const own = measured === null ? tankFromRests(trace, air, charge?.emptiesAt?.high ?? null) : null;
  const usualCharge = Math.max(site.precharge?.value ?? setPressure - USUAL_BELOW_SET, LEAST_CHARGE * setPressure, 0) + air;
  const usualVolume = site.tankVolume?.value ?? USUAL_TANK_SHARE * 60 * (site.pumpRatedFlow?.value ?? 2.5e-3);
  const gasConstant =
    measured !== null
      ? widened({ id: "gas-constant", ...measured, scale: "log", from: "log" }, FORM_ERROR)
      : (own?.gasConstant ??
        inLog(
          "gas-constant",
          usualVolume * usualCharge,
          site.tankVolume === null ? 0.6 : 0.35,
          site.tankVolume === null ? "usual" : "facts",
        ));
  return {
    gasConstant,
    volume: fitVolume(site, charge, gasConstant.value, usualCharge, air),
    ...fitLeaks(leak, own?.unseen ?? null),
  };
}

function fitVolume(
  site: SiteFacts,
  charge: FindingOf<"tank-charge"> | null,
  constant: number,
  usualCharge: number,
  air: number,
): FittedParameter {
  const empties = charge?.emptiesAt ?? null;
  if (empties !== null) {
    const volume = constant / (empties.value + air);
    return {
      id: "tank-volume",
      value: volume,
      low: constant / (empties.high + air),
      high: constant / (empties.low + air),
      scale: "log",
      from: "log",
    };
  }
  if (site.tankVolume !== null) return inLog("tank-volume", site.tankVolume.value, 0.02, "facts");
  return inLog("tank-volume", constant / usualCharge, 0.3, "usual");
}

const USUAL_LEAK = 2e-7; // m3/s, about 17 L a day: what a log of some days can just show

function fitLeaks(leak: FindingOf<"leak-down"> | null, unseen: FittedParameter | null): Pick<FittedTank, "backLeak" | "systemLeak"> {
  const none = (id: "back-leak" | "system-leak"): FittedParameter => ({
    id,
    value: 0,
    low: 0,
    high: USUAL_LEAK,
    scale: "linear",
    from: "usual",
  });
  if (leak === null) return { backLeak: unseen ?? none("back-leak"), systemLeak: none("system-leak") };
  const flow = { ...leak.flow, scale: "linear" as const, from: "log" as const };
  return leak.side === "system"
    ? { systemLeak: { id: "system-leak", ...flow }, backLeak: none("back-leak") }
    : { systemLeak: none("system-leak"), backLeak: { id: "back-leak", ...flow } };
}

/** Null without a meter after the tank, or where too little was drawn at rest. */
export function tankFromRests(
  trace: Trace,
  air: number,
  notBelow: number | null,
): { readonly gasConstant: FittedParameter; readonly unseen: FittedParameter } | null {
  const stretches = restStretches(trace, air, notBelow);
  if (stretches.rise.length < LEAST_STRETCHES) return null;
  const fit = clusteredRegression([stretches.volume, stretches.time], stretches.rise, stretches.rest);
  if (fit === null || !(fit.coefficients[0] > 0)) return null;
  const [perVolume, perTime] = fit.coefficients;
  const sdLog = Math.sqrt(fit.covariance[0][0]) / perVolume;
  if (!(sdLog < 0.3)) return null;
  const unseen = perTime / perVolume;
  return {
    gasConstant: widened(inLog("gas-constant", 1 / perVolume, sdLog, "log", fit.reach), FORM_ERROR),
    unseen: clippedAtNought(onLine("back-leak", unseen, Math.sqrt(fit.covariance[1][1]) / perVolume, "log", fit.reach)),
  };
}

const clippedAtNought = (p: FittedParameter): FittedParameter => ({
  ...p,
  value: Math.max(0, p.value),
  low: Math.max(0, p.low),
  high: Math.max(0, p.high),
});

/** Stretches of rest over which pressure fell far enough: rise of 1/p (absolute), metered volume, time, and the rest they belong to. */
function restStretches(trace: Trace, air: number, notBelow: number | null) {
  const [rise, volume, time, rest]: number[][] = [[], [], [], []];
  const { times, pressure, flow, run, interval } = trace;
  if (flow !== null && trace.meter === "after-tank") {
    let start = -1;
    let drawn = 0;
    let stoppedAt = Number.NEGATIVE_INFINITY;
    let window = 0;
    for (let i = 0; i < times.length; i++) {
      const p = pressure[i];
      const broken = i > 0 && times[i] - times[i - 1] > 3 * interval;
      const usable = run[i] < 0 && !broken && Number.isFinite(p + flow[i]) && (notBelow === null || p > notBelow);
      if (run[i] >= 0) stoppedAt = times[i];
      if (!usable || times[i] - stoppedAt < VALVE_CLOSES) {
        if (start >= 0) window++;
        start = -1;
        continue;
      }
      if (start >= 0) drawn += ((flow[i] + flow[i - 1]) / 2) * (times[i] - times[i - 1]);
      if (start < 0) [start, drawn] = [i, 0];
      else if (pressure[start] - p >= LEAST_FALL) {
        rise.push(1 / (p + air) - 1 / (pressure[start] + air));
        volume.push(drawn);
        time.push(times[i] - times[start]);
        rest.push(window);
        [start, drawn] = [i, 0];
      }
    }
  }
  return { rise: Float64Array.from(rise), volume: Float64Array.from(volume), time: Float64Array.from(time), rest };
}

/** Gauge pressure at which such a tank is empty. */
export const emptiesAt = (constant: number, volume: number, air: number): number => constant / volume - air;
