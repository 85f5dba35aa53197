import type { FindingKind } from "../../../shared/findings/finding";
import type { Channel } from "../../../shared/record/log-record";
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

/** Pictures that are drawn from a flow meter as well. */
const WITH_FLOW: readonly CloserLook[] = ["pressure-against-flow", "tank-line"];

/** The pictures that explain a finding, as far as the record has what they are drawn from. */
export function looksOf(finding: FindingKind, channels: readonly Pick<Channel, "role">[]): readonly CloserLook[] {
  const hasFlow = channels.some(({ role }) => role === "flow");
  return LOOKS[finding].filter((look) => hasFlow || !WITH_FLOW.includes(look));
}
