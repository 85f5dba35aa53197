import { sensorDistanceByPractice } from "../amounts";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Sensor out of the eddies: into a straight run, away from elbows, fittings and the pump's outlet. */
export const calmSensorPlace: Rule = {
  id: "calm-sensor-place",
  answers: ["sensor-in-turbulence"],
  step: "change",
  propose: (basis) => ({ ...PLAIN, amounts: [sensorDistanceByPractice(basis)], sources: ["practice"], cautions: CAUTIONS.sensorWork }),
};
