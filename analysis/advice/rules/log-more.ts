import { CAUTIONS } from "../cautions";
import { PLAIN, PRACTICE, type Rule } from "../rule";

/** A sound site needs no more than an even chance: nothing is changed there. */
const HALF = 0.5;
/** Confidence from which a cause stands out. */
const STANDS_OUT = 0.6;

/** Where no cause stands out, another log or a fact is worth more than a part: no change is proposed on a guess. */
export const logMore: Rule = {
  id: "log-more",
  answers: [],
  step: "measure",
  propose(_basis, first) {
    const settled = first.confidence >= (first.id === "healthy" ? HALF : STANDS_OUT);
    return settled ? null : { ...PLAIN, sources: [PRACTICE], cautions: CAUTIONS.looking };
  },
};
