import { found } from "../../diagnosis/observations/sight";
import { CAUTIONS } from "../cautions";
import { PLAIN, type Rule } from "../rule";

/** Longer than this a swing is not near four delays of any loop of a pump, s. */
const SLOW_SWING = 60;

/**
 * Less gain where the loop swings by itself. A loop that just keeps swinging stands at its ultimate gain Ku: 0.45 Ku is the 1942 setting
 * (Ziegler and Nichols, PI), a third of Ku leaves the gain margin of about 3 of Skogestad's rules. Not for a slow swing: there less gain
 * makes it worse (damping 0.5 sqrt(k' Kc Ti)).
 */
export const lowerLoopGain: Rule = {
  id: "lower-loop-gain",
  answers: ["loop-too-aggressive"],
  step: "change",
  propose(basis) {
    const periods = (found(basis, "oscillation")?.episodes ?? []).filter((e) => e.drivenBy !== "cycling").map((e) => e.period.value);
    if (periods.length > 0 && periods.every((p) => p > SLOW_SWING)) return null;
    return {
      ...PLAIN,
      amounts: [
        { id: "gain-ratio-by-practice", quantity: "ratio", basis: "common practice", low: 0.5, high: 0.5, inputs: [] },
        { id: "gain-ratio-by-margin", quantity: "ratio", basis: "physics", low: 1 / 3, high: 0.45, inputs: [] },
      ],
      trust: { id: "gain-physics", numbers: {} },
      sources: ["practice", "loop-tuning"],
      cautions: CAUTIONS.settings,
    };
  },
};
