import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Find where air comes in, then fill and vent the pump. */
export const restorePrime: Rule = {
  id: "restore-prime",
  answers: ["loss-of-prime"],
  step: "look",
  propose: () => ({ ...PLAIN, sources: ["practice"], cautions: CAUTIONS.pumpWork }),
};
