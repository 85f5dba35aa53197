import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** A cause stands out where it is likelier than all others together. */
const STANDS_OUT = 0.5;

/** Where no cause stands out, another log or a fact is worth more than a part: no change is proposed on a guess. */
export const logMore: Rule = {
  id: "log-more",
  answers: [],
  step: "measure",
  propose(_basis, first) {
    return first.confidence >= STANDS_OUT ? null : { ...PLAIN, sources: ["practice"], cautions: CAUTIONS.looking };
  },
};
