import type { Amount } from "../../../shared/findings/advice";
import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Compare kind of signal and range in the drive and in the logger with what the sensor says. */
export const checkSensorScaling: Rule = {
  id: "check-sensor-scaling",
  answers: ["sensor-scaling-wrong"],
  step: "measure",
  propose(basis) {
    const ratio = found(basis, "sensor")?.scaleRatio ?? null;
    const amount: Amount[] =
      ratio === null
        ? []
        : [
            {
              id: "scale-ratio",
              quantity: "ratio",
              basis: "physics",
              low: ratio,
              high: ratio,
              inputs: [{ name: "ratio", quantity: "ratio", value: ratio, from: "log" }],
            },
          ];
    return { ...PLAIN, amounts: amount, sources: ["practice"], cautions: CAUTIONS.wiring };
  },
};
