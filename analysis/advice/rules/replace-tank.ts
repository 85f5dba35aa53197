import type { Rule } from "../rule";
import { volumeProposal } from "../volume-proposal";

/** A tank with water on its air side cannot be charged again: bring another of at least the size that this pump needs. */
export const replaceTank: Rule = {
  id: "replace-tank",
  answers: ["tank-waterlogged"],
  step: "bring",
  propose: (basis) => volumeProposal(basis, false),
};
