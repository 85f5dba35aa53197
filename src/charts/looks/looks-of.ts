import type { FindingKind } from "../../../shared/findings/finding";
import type { CloserLook } from "../../../shared/wording/closer-look";

/** Which pictures explain a finding, the best first. */
const LOOKS: { readonly [K in FindingKind]: readonly CloserLook[] } = {
  "over-marked-pressure": [],
  cycling: ["cycle-overlay", "starts-by-hour", "rest-lengths", "run-lengths"],
  "short-cycles": ["run-lengths", "cycle-overlay", "starts-by-hour", "rest-lengths"],
  oscillation: ["periodogram", "autocorrelation"],
  drift: ["drift-window"],
  tracking: ["pressure-against-flow"],
  "tank-charge": ["tank-line", "cycle-overlay"],
  "leak-down": ["leak-fit", "rest-lengths"],
  sensor: ["pressure-against-flow"],
  "pump-performance": ["pressure-against-flow"],
  demand: [],
};
export const looksOf = (finding: FindingKind): readonly CloserLook[] => LOOKS[finding];
