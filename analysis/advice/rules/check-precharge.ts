import { prechargeByPractice, prechargeNow } from "../amounts";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Read the charge before changing anything at the tank: short cycles alone do not tell low charge from a small tank. */
export const checkPrecharge: Rule = {
  id: "check-precharge",
  answers: ["precharge-low", "precharge-high", "tank-waterlogged", "tank-too-small"],
  step: "measure",
  propose: (basis) => ({
    ...PLAIN,
    amounts: [prechargeByPractice(basis), prechargeNow(basis)].filter((a) => a !== null),
    sources: ["practice", "boyle"],
    cautions: CAUTIONS.airCharge,
  }),
};
