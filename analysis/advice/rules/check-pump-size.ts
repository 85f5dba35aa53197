import type { Amount } from "../../../shared/findings/advice";
import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Compare what is drawn at once with what the pump gives at set pressure. */
export const checkPumpSize: Rule = {
  id: "check-pump-size",
  answers: ["undersized-pump-or-overdraw"],
  step: "measure",
  propose(basis) {
    const [flow, rated] = [found(basis, "pump-performance")?.peakFlow ?? null, basis.site.pumpRatedFlow];
    const amounts: Amount[] =
      flow === null
        ? []
        : [
            {
              id: "pump-flow-needed",
              quantity: "flow",
              basis: "common practice",
              low: flow,
              high: 1.2 * flow,
              inputs: [
                { name: "peak-flow", quantity: "flow", value: flow, from: "log" },
                ...(rated === null ? [] : [{ name: "pump-flow", quantity: "flow", value: rated.value, from: rated.from } as const]),
              ],
            },
          ];
    return { ...PLAIN, amounts, sources: ["practice"], cautions: CAUTIONS.looking };
  },
};
