import { prechargeByPractice } from "../amounts";
import { chargeProposal, needsLowering } from "../charge-proposal";
import type { Rule } from "../rule";

/** Let air out until the charge stands in its band. Nothing to lower where the charge as read already does. */
export const lowerPrecharge: Rule = {
  id: "lower-precharge",
  answers: ["precharge-high"],
  step: "change",
  propose(basis) {
    const to = prechargeByPractice(basis);
    return to === null || !needsLowering(basis, to) ? null : chargeProposal(basis, to);
  },
};
