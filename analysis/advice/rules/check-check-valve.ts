import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { leakPerDay } from "../leak-per-day";
import { PLAIN, type Rule } from "../rule";

/** Look at the check valve. Not where the meter sees the loss on the system's side. */
export const checkCheckValve: Rule = {
  id: "check-check-valve",
  answers: ["leak-or-check-valve"],
  step: "measure",
  propose(basis) {
    const leak = found(basis, "leak-down");
    if (leak?.side === "system") return null;
    return { ...PLAIN, amounts: leakPerDay(basis), sources: ["practice"], cautions: CAUTIONS.pipeWork };
  },
};
