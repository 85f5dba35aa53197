import type { AcceptanceId, AcceptanceLimit, AcceptanceLine, WouldTellId } from "../../shared/findings/acceptance";
import type { Fact } from "../../shared/site/site-facts";
import type { Shown } from "../../shared/units/format-quantity";
import type { Measured } from "../../shared/units/measured";

export const exactly = (value: number): Measured => ({ value, low: value, high: value });
export const atMost = (high: number, from: AcceptanceLimit["from"]): AcceptanceLimit => ({ low: null, high, from });
export const atLeast = (low: number, from: AcceptanceLimit["from"]): AcceptanceLimit => ({ low, high: null, from });

/** Where a stated limit comes from; what is read from a log sets no limit. */
export const originOf = ({ from }: Fact<number>): AcceptanceLimit["from"] => (from === "log" ? "assumed" : from);

const isInside = (value: number, { low, high }: AcceptanceLimit) => (low === null || value >= low) && (high === null || value <= high);

/** Met where the value keeps the limit; not met where its whole interval lies outside; between the two nobody can tell. */
export function judge(
  id: AcceptanceId,
  shown: Shown,
  limit: AcceptanceLimit,
  measured: Measured,
  wouldTell: WouldTellId = "log-longer",
): AcceptanceLine {
  if (isInside(measured.value, limit)) return { id, shown, limit, measured, state: "met", wouldTell: null };
  const reaches = isInside(measured.low, limit) || isInside(measured.high, limit);
  return reaches
    ? { id, shown, limit, measured, state: "cannot-tell", wouldTell }
    : { id, shown, limit, measured, state: "not-met", wouldTell: null };
}

export const cannotTell = (
  id: AcceptanceId,
  shown: Shown,
  wouldTell: WouldTellId,
  limit: AcceptanceLimit | null = null,
  measured: Measured | null = null,
): AcceptanceLine => ({
  id,
  shown,
  limit,
  measured,
  state: "cannot-tell",
  wouldTell,
});
