import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Clear the port and its line, and vent them. */
export const clearSensorPort: Rule = {
  id: "clear-sensor-port",
  answers: ["sensor-port-plugged"],
  step: "change",
  propose: () => ({ ...PLAIN, sources: ["practice"], cautions: CAUTIONS.sensorWork }),
};
