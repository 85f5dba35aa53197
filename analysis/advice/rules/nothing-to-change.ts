import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Nothing wrong that the log could show: leave the settings alone. */
export const nothingToChange: Rule = {
  id: "nothing-to-change",
  answers: ["healthy"],
  step: "look",
  propose: (_basis, cause) => (cause.confidence < 0.5 ? null : { ...PLAIN, sources: ["practice"], cautions: CAUTIONS.looking }),
};
