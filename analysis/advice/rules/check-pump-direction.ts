import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Direction first: it costs least; then wear and suction. */
export const checkPumpDirection: Rule = {
  id: "check-pump-direction",
  answers: ["pump-turning-backwards-or-weak"],
  step: "look",
  propose: () => ({ ...PLAIN, sources: ["practice"], cautions: CAUTIONS.pumpWork }),
};
