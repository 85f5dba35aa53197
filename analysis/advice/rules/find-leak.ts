import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { leakPerDay } from "../leak-per-day";
import { PLAIN, type Rule } from "../rule";

/** Walk the system with all taps shut. Not where the log says that the loss goes back through the pump. */
export const findLeak: Rule = {
  id: "find-leak",
  answers: ["leak-or-check-valve"],
  step: "look",
  propose(basis) {
    const leak = found(basis, "leak-down");
    if (leak?.side === "back") return null;
    return { ...PLAIN, amounts: leakPerDay(basis), sources: ["boyle-over-time"], cautions: CAUTIONS.pipeWork };
  },
};
