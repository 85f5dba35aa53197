import type { Amount } from "../../../shared/findings/advice";
import { CAUTIONS } from "../cautions";
import { highestPressure } from "../highest-pressure";
import { PLAIN, type Rule } from "../rule";

/**
 * Pressure above the working pressure marked on the tank, recorded or to be expected: comes before everything.
 * To be expected where set or cut-out pressure, the pump's pressure at no flow or a proposed charge lies above the mark.
 */
export const stopOverMarkedPressure: Rule = {
  id: "stop-over-marked-pressure",
  answers: [],
  step: "look",
  propose(basis) {
    const marked = basis.site.tankRatedPressure;
    if (marked === null) return null;
    const highest = highestPressure(basis);
    if (highest === null || highest.value <= marked.value) return null;
    const over = highest.value - marked.value;
    const amount: Amount = {
      id: "over-marked",
      quantity: "pressureDifference",
      basis: "physics",
      low: over,
      high: over,
      inputs: [
        { name: "highest", quantity: "gaugePressure", value: highest.value, from: highest.from },
        { name: "marked", quantity: "gaugePressure", value: marked.value, from: marked.from },
      ],
    };
    return { ...PLAIN, amounts: [amount], sources: ["marking-on-the-tank"], cautions: CAUTIONS.overMarked };
  },
};
