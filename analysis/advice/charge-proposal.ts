import type { Amount, Said, TrustId } from "../../shared/findings/advice";
import { found, type Seen } from "../diagnosis/observations/sight";
import { driftsOver, endsOfBand, prechargeNow } from "./amounts";
import { CAUTIONS } from "./cautions";
import type { Proposal } from "./rule";

/** Charges as read and as the gas at work shows them, Pa gauge; the log's own comes first, since a reading may be old. */
function chargesNow(seen: Seen): number[] {
  const emptiesAt = found(seen, "tank-charge")?.emptiesAt ?? null;
  const byGas = prechargeNow(seen);
  const fromLog = emptiesAt?.value ?? (byGas === null ? null : (byGas.low + byGas.high) / 2);
  const asRead = seen.site.precharge?.value ?? null;
  return [fromLog, asRead].filter((p) => p !== null);
}

/** Nothing says that the charge stands in its band or above it. */
export const needsRaising = (seen: Seen, to: Amount): boolean => {
  const now = chargesNow(seen);
  return now.length === 0 || now.some((p) => p < to.low);
};
/** Nothing says that the charge stands in its band or below it. */
export const needsLowering = (seen: Seen, to: Amount): boolean => {
  const now = chargesNow(seen);
  return now.length === 0 || now.some((p) => p > to.high);
};

function trustOf(seen: Seen, to: Amount): Said<TrustId> {
  if (to.id === "precharge-by-switch-practice") return { id: "precharge-switch", numbers: {} };
  const over = driftsOver(seen);
  if (over === null) return { id: "precharge-drift-unknown", numbers: {} };
  return { id: over ? "precharge-higher-setting" : "precharge-lower-setting", numbers: {} };
}

/**
 * The charge to set: the band of practice, beside it what each end does to softness and stored water by the gas law, and what the new
 * charge does against the present one. Cycles lengthen with the gas constant, p0 Vt, as long as the tank does not run empty.
 */
export function chargeProposal(seen: Seen, to: Amount): Proposal {
  const now = prechargeNow(seen);
  const air = seen.site.atmosphere.value;
  const ratio = (a: number, b: number) => (a + air) / (b + air);
  const longer = now === null ? null : { low: ratio(to.low, now.high), high: ratio(to.high, now.low) };
  return {
    amounts: [to, ...(now === null ? [] : [now]), ...endsOfBand(seen)],
    trust: trustOf(seen, to),
    expect:
      longer === null
        ? null
        : {
            id: longer.low >= 1 ? "softer-but-less-water" : "stiffer-but-more-water",
            numbers: { ratioLow: longer.low, ratioHigh: longer.high },
          },
    sources: ["practice", "boyle"],
    cautions: CAUTIONS.airCharge,
  };
}
