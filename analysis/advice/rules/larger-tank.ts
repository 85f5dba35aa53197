import type { Rule } from "../rule";
import { volumeProposal } from "../volume-proposal";

/** A larger total volume: a second tank beside the first, or a larger one. Both amounts stand side by side. */
export const largerTank: Rule = {
  id: "larger-tank",
  answers: ["tank-too-small"],
  step: "bring",
  propose: (basis) => volumeProposal(basis, true),
};
