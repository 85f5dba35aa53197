import type { AcceptanceLine } from "../../shared/findings/acceptance";
import type { Measured } from "../../shared/units/measured";
import { chargeBand } from "../advice/amounts";
import { found, pumpOf, type Sight } from "../diagnosis/observations/sight";
import { PRACTICE_SHARE_OF_MINUTE, SENSOR_WITHIN } from "../diagnosis/practice";
import { atLeast, atMost, cannotTell, exactly, judge, originOf } from "./judge";

const MINUTE = 60;
/** A recorded pressure this far from what the facts say, as a ratio, means a wrong range; common practice, no source. */
const SCALE = { low: 0.9, high: 1.1 };
/** Share of the expected full-speed pressure below which a pump is weak or turns backwards; common practice, no source. */
const LEAST_OF_EXPECTED_HEAD = 0.8;

/** How the parts suit each other: tank, charge, sensor, pump, valves. */
export const FITTING: readonly ((sight: Sight) => AcceptanceLine)[] = [
  tankVolume,
  precharge,
  sensorDistance,
  sensorScaling,
  fullSpeedHead,
  prime,
  leakDown,
];

function tankVolume({ site }: Sight): AcceptanceLine {
  const { tankVolume: volume, pumpRatedFlow } = site;
  const limit = pumpRatedFlow === null ? null : atLeast(PRACTICE_SHARE_OF_MINUTE * pumpRatedFlow.value * MINUTE, "practice");
  if (limit === null) return cannotTell("tank-volume", "give-pump-flow", null, volume === null ? null : exactly(volume.value));
  return volume === null ? cannotTell("tank-volume", "give-tank-volume", limit) : judge("tank-volume", limit, exactly(volume.value));
}

/** The charge that the gas at work shows in a tank of the stated volume, K / Vt less the air's own pressure; null without flow or volume. */
function chargeAtWork(sight: Sight): Measured | null {
  const gas = found(sight, "tank-charge")?.gasConstant ?? null;
  const { tankVolume: volume, atmosphere } = sight.site;
  if (gas === null || volume === null) return null;
  const charge = (energy: number) => energy / volume.value - atmosphere.value;
  return { value: charge(gas.value), low: charge(gas.low), high: charge(gas.high) };
}

/**
 * What the log shows of the charge counts before what was read by hand: first where the tank empties, then the gas at work. A reading that the gas at work bears
 * out is judged itself, since a gauge on the empty tank is nearer than meter and pipes let the log come.
 */
function precharge(sight: Sight): AcceptanceLine {
  const band = chargeBand(sight);
  const limit = band === null ? null : { low: band.low, high: band.high, from: "practice" as const };
  const [atWork, read] = [chargeAtWork(sight), sight.site.precharge?.value ?? null];
  const bornOut = read !== null && (atWork === null || (atWork.low <= read && read <= atWork.high));
  const measured = found(sight, "tank-charge")?.emptiesAt ?? (bornOut ? exactly(read) : atWork);
  if (limit === null) return cannotTell("precharge", "give-set-pressure", null, measured);
  return measured === null ? cannotTell("precharge", "give-precharge", limit) : judge("precharge", limit, measured);
}

function sensorDistance({ site }: Sight): AcceptanceLine {
  const stated = site.limits.sensorToTank;
  const limit = stated === null ? atMost(SENSOR_WITHIN, "practice") : atMost(stated.value, originOf(stated));
  return site.sensorToTank === null
    ? cannotTell("sensor-distance", "give-sensor-distance", limit)
    : judge("sensor-distance", limit, exactly(site.sensorToTank.value));
}

function sensorScaling(sight: Sight): AcceptanceLine {
  const limit = { ...SCALE, from: "practice" as const };
  const sensor = found(sight, "sensor");
  const set = sight.site.setPressure;
  if (sensor?.scaleRatio != null) return judge("sensor-scaling", limit, exactly(sensor.scaleRatio));
  const mean = found(sight, "tracking")?.meanError ?? null;
  if (set === null || mean === null) return cannotTell("sensor-scaling", set === null ? "give-set-pressure" : "log-pump-state", limit);
  return judge("sensor-scaling", limit, exactly((set.value + mean) / set.value));
}

function fullSpeedHead(sight: Sight): AcceptanceLine {
  const pump = found(sight, "pump-performance");
  if (pump === null || pump.shutoffPressure === null || pump.expectedShutoff === null) {
    return cannotTell("full-speed-head", "dead-head-test", null, pump?.shutoffPressure == null ? null : exactly(pump.shutoffPressure));
  }
  return judge("full-speed-head", atLeast(LEAST_OF_EXPECTED_HEAD * pump.expectedShutoff, "practice"), exactly(pump.shutoffPressure));
}

function prime(sight: Sight): AcceptanceLine {
  const limit = atMost(0, "practice");
  const pump = found(sight, "pump-performance");
  if (pump !== null) return judge("prime", limit, exactly(pump.lossOfPrime.length));
  return cannotTell("prime", pumpOf(sight) === null ? "log-pump-state" : "log-flow", limit);
}

function leakDown(sight: Sight): AcceptanceLine {
  const limit = atMost(0, "practice");
  const leak = found(sight, "leak-down");
  if (leak !== null) return judge("leak-down", limit, leak.flow);
  const isClear = sight.outcomes.some((o) => o.kind === "leak-down" && o.state === "clear");
  return isClear
    ? judge("leak-down", limit, exactly(0))
    : cannotTell("leak-down", pumpOf(sight) === null ? "log-pump-state" : "log-flow", limit);
}
