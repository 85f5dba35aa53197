import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Thaw gently, then protect the sensor and its line from frost; replace a sensor that stays stuck. */
export const protectSensorFromFrost: Rule = {
  id: "protect-sensor-from-frost",
  answers: ["sensor-frozen-or-stuck"],
  step: "change",
  propose: () => ({ ...PLAIN, sources: ["practice"], cautions: CAUTIONS.sensorWork }),
};
