import { SENSOR_WITHIN } from "../../diagnosis/practice";
import { sensorDistanceByPractice, surgePeriods } from "../amounts";
import { CAUTIONS } from "../cautions";
import type { Rule } from "../rule";

/**
 * Sensor into the tank's own straight run, within 10 ft, away from elbows, connector up, where it cannot freeze.
 * Nothing to move where the distance given is within that already.
 */
export const moveSensor: Rule = {
  id: "move-sensor",
  answers: ["sensor-far-from-tank"],
  step: "change",
  propose(basis) {
    const now = basis.site.sensorToTank?.value ?? null;
    if (now !== null && now <= SENSOR_WITHIN) return null;
    const periods = surgePeriods(basis);
    const [before, after] = periods;
    return {
      amounts: [sensorDistanceByPractice(basis), ...periods],
      trust: { id: "distance-period-decides", numbers: {} },
      expect:
        after === undefined ? null : { id: "period-shrinks", numbers: { low: before.low / after.low, high: before.high / after.high } },
      sources: ["practice", "mass-on-a-spring"],
      cautions: CAUTIONS.sensorWork,
    };
  },
};
