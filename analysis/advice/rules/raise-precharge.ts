import { prechargeByPractice } from "../amounts";
import { chargeProposal, needsRaising } from "../charge-proposal";
import type { Rule } from "../rule";

/** Put air in until the charge stands in its band. Nothing to raise where the charge as read already does. */
export const raisePrecharge: Rule = {
  id: "raise-precharge",
  answers: ["precharge-low"],
  step: "change",
  propose(basis) {
    const to = prechargeByPractice(basis);
    return to === null || !needsRaising(basis, to) ? null : chargeProposal(basis, to);
  },
};
