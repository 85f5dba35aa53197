import type { Amount, Said, TrustId } from "../../shared/findings/advice";
import { isFixedSpeed, type Seen } from "../diagnosis/observations/sight";
import { tankVolumeByPhysics, tankVolumeByPractice } from "./amounts";
import { CAUTIONS } from "./cautions";
import type { Proposal } from "./rule";

/** Within this ratio practice and physics are said to agree: tanks come in coarse sizes. */
const AGREE = 1.3;

/** With a switch the pump always gives its full flow and physics holds; a drive slows down and seldom stops, so practice may do. */
function trustOf(seen: Seen, practice: Amount | null, physics: readonly Amount[]): Said<TrustId> | null {
  if (physics.length === 0) return practice === null ? null : { id: "volume-practice-only", numbers: {} };
  if (isFixedSpeed(seen.site) || practice === null) return { id: "volume-switch", numbers: {} };
  const most = physics.reduce((max, a) => Math.max(max, a.high), 0);
  const ratio = most / practice.low;
  if (ratio < AGREE && ratio > 1 / AGREE) return { id: "volumes-agree", numbers: {} };
  return { id: "volume-drive", numbers: { practice: practice.low, physics: most } };
}

/** Cycles lengthen in proportion to volume at the same charge: T = 4 V / Q and V proportional to Vt. */
function expectOf(seen: Seen, amounts: readonly Amount[]): Proposal["expect"] {
  const now = seen.site.tankVolume?.value ?? null;
  const [least, most] = [amounts.reduce((m, a) => Math.min(m, a.low), Infinity), amounts.reduce((m, a) => Math.max(m, a.high), 0)];
  if (now === null || amounts.length === 0 || least <= now) return null;
  return { id: "cycle-longer", numbers: { ratioLow: least / now, ratioHigh: most / now } };
}

/**
 * The volume to bring, by practice and by physics side by side.
 * @param onlyIfLarger a sound tank that already has every volume asked for is not replaced by the same
 */
export function volumeProposal(seen: Seen, onlyIfLarger: boolean): Proposal | null {
  const [practice, physics] = [tankVolumeByPractice(seen), tankVolumeByPhysics(seen)];
  const amounts = [...(practice === null ? [] : [practice]), ...physics];
  const now = seen.site.tankVolume?.value ?? null;
  if (onlyIfLarger && now !== null && amounts.length > 0 && amounts.every((a) => a.low <= now)) return null;
  return {
    amounts,
    trust: trustOf(seen, practice, physics),
    expect: expectOf(seen, amounts),
    sources: ["practice", "boyle-and-standards"],
    cautions: CAUTIONS.tankWork,
  };
}
