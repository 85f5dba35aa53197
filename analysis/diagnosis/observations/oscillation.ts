import type { OscillationEpisode } from "../../../shared/findings/finding";
import { absolutePascal } from "../../../shared/units/pressure";
import { joule } from "../../../shared/units/quantity";
import { inertance } from "../../hydraulics/inertance";
import { surgePeriod } from "../../hydraulics/surge-period";
import { tankCompliance } from "../../hydraulics/tank-compliance";
import { SENSOR_WITHIN } from "../practice";
import { found, isClear, isFixedSpeed, type Look, type Looks, levelFor, pumpOf, type Sight, setPressureOf } from "./sight";

/** Episodes that last less than both of these together are a passing thing. */
const PASSING = { seconds: 600, share: 0.02 };

const lengthOf = (e: OscillationEpisode) => e.to - e.from;

/** Of the switch's differential: what swings through so much of it turns where the switch does. */
const SWITCH_SWINGS = [0.7, 1.4] as const;

/** Whether a swing is that between the start and the stop of a switch: a pump on one turns at these two pressures, and is the saw-tooth itself. */
function isBetweenLimits({ site }: Sight, { peakToPeak }: OscillationEpisode): boolean {
  if (!isFixedSpeed(site) || site.cutIn === null || site.cutOut === null) return false;
  const share = peakToPeak.value / (site.cutOut.value - site.cutIn.value);
  return share > SWITCH_SWINGS[0] && share < SWITCH_SWINGS[1];
}

/** Episodes that are not the start-stop saw-tooth, with their total length. */
function episodes(sight: Sight): { readonly all: readonly OscillationEpisode[]; readonly total: number } {
  const all = (found(sight, "oscillation")?.episodes ?? []).filter((e) => e.drivenBy !== "cycling" && !isBetweenLimits(sight, e));
  return { all, total: all.reduce((sum, e) => sum + lengthOf(e), 0) };
}

/** The value in the middle of the time, not of the number of episodes. */
function middleByTime(all: readonly OscillationEpisode[], of: (e: OscillationEpisode) => number): number {
  const sorted = [...all].sort((a, b) => of(a) - of(b));
  const half = sorted.reduce((sum, e) => sum + lengthOf(e), 0) / 2;
  let gone = 0;
  for (const e of sorted) {
    gone += lengthOf(e);
    if (gone >= half) return of(e);
  }
  return Number.NaN;
}

const periodOf = (sight: Sight): number | null => {
  const { all } = episodes(sight);
  return all.length === 0 ? null : middleByTime(all, (e) => e.period.value);
};

/** Period of the water column between sensor and tank, isothermal and with n = 1.4; null where facts are missing. */
function columnPeriod(sight: Sight): { readonly slow: number; readonly fast: number } | null {
  const { sensorToTank, pipeInsideDiameter, tankVolume, precharge, atmosphere } = sight.site;
  const set = setPressureOf(sight);
  const living = found(sight, "tank-charge")?.gasConstant?.value ?? null;
  const constant =
    living ?? (tankVolume === null || precharge === null ? null : joule(tankVolume.value * (precharge.value + atmosphere.value)));
  if (sensorToTank === null || pipeInsideDiameter === null || constant === null || set === null || !(constant > 0)) return null;
  const column = inertance(sensorToTank.value, pipeInsideDiameter.value);
  const at = absolutePascal(set + atmosphere.value);
  return {
    slow: surgePeriod(column, tankCompliance(joule(constant), at, 1)),
    fast: surgePeriod(column, tankCompliance(joule(constant), at, 1.4)),
  };
}

const driver: Look<"oscillation-driver"> = (sight) => {
  const { all, total } = episodes(sight);
  if (all.length === 0) return null;
  const timeOf = (by: OscillationEpisode["drivenBy"]) => all.reduce((sum, e) => sum + (e.drivenBy === by ? lengthOf(e) : 0), 0);
  const numbers = { loop: timeOf("loop") / total, demand: timeOf("demand") / total };
  if (numbers.loop > 0.5) return { level: "loop", numbers };
  return { level: numbers.demand > 0.5 ? "demand" : "unclear", numbers };
};

/** A swing of so many periods in one run was there before its stop, and goes by itself; one for so much of all the swinging is more than a chance. */
const BEFORE_STOP = { periods: 8, share: 0.5 };

export const oscillationLooks: Pick<
  Looks,
  "swing-in-runs" | "oscillation" | "oscillation-driver" | "oscillation-period" | "surge-period" | "sensor-distance"
> = {
  oscillation(sight) {
    const { all, total } = episodes(sight);
    if (all.length === 0)
      return isClear(sight, "oscillation") || found(sight, "oscillation") !== null ? { level: "none", numbers: {} } : null;
    const peakToPeak = middleByTime(all, (e) => e.peakToPeak.value);
    const limit = sight.site.limits.oscillationPeakToPeak.value;
    const passing = total < PASSING.seconds && total < PASSING.share * sight.record.duration;
    return {
      level: passing || peakToPeak < limit ? "small" : "large",
      numbers: { peakToPeak, limit, period: middleByTime(all, (e) => e.period.value), total },
    };
  },
  "oscillation-driver": driver,
  /**
   * Whether the pressure swings within runs, long before the pump stops. A drive that sleeps too soon is woken at once again and swings from stop to stop; one that
   * swings while it runs has its swing from the loop, the sensor or the draw, and stops where the swing crosses what makes it sleep. Only with a witness of the runs.
   */
  "swing-in-runs"(sight) {
    const [{ all, total }, pump] = [episodes(sight), pumpOf(sight)];
    if (all.length === 0 || pump === null || pump.basis === "pressure" || pump.basis === "flow") return null;
    let inRuns = 0;
    for (const e of all)
      for (const run of pump.runs) {
        const length = Math.min(e.to, run.to) - Math.max(e.from, run.from);
        if (length >= BEFORE_STOP.periods * e.period.value) inRuns += length;
      }
    return { level: inRuns > BEFORE_STOP.share * total ? "within" : "from-stop-to-stop", numbers: { share: inRuns / total } };
  },
  "oscillation-period"(sight) {
    const period = periodOf(sight);
    return period === null ? null : { level: levelFor(period, [15, 60], ["fast", "middling", "slow"]), numbers: { period } };
  },
  "surge-period"(sight) {
    const [period, column] = [periodOf(sight), columnPeriod(sight)];
    if (period === null || column === null) return null;
    const agrees = period > 0.75 * column.fast && period < 1.33 * column.slow;
    return { level: agrees ? "agrees" : "differs", numbers: { period, slow: column.slow, fast: column.fast } };
  },
  "sensor-distance"(sight) {
    const given = sight.site.sensorToTank?.value ?? null;
    const distance = given ?? found(sight, "sensor")?.equivalentDistance?.value ?? null;
    if (distance === null) return null;
    const levels = ["near", "beyond", "far"] as const;
    return { level: levelFor(distance / SENSOR_WITHIN, [1.2, 2.5], levels), numbers: { distance, limit: SENSOR_WITHIN } };
  },
};
