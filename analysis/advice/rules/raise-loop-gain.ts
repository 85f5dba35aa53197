import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** More gain, in steps, where the drive answers late; integral action slower where it swings slowly (k' Kc Ti of at least 4 to be calm). */
export const raiseLoopGain: Rule = {
  id: "raise-loop-gain",
  answers: ["loop-too-slow"],
  step: "change",
  propose: () => ({
    ...PLAIN,
    amounts: [{ id: "gain-raise-by-practice", quantity: "ratio", basis: "common practice", low: 1.5, high: 2, inputs: [] }],
    sources: ["practice", "second-order"],
    cautions: CAUTIONS.settings,
  }),
};
