import {
  ACCEPTANCE_SHOWN,
  type AcceptanceId,
  type AcceptanceLimit,
  type AcceptanceLine,
  type WouldTellId,
} from "../../shared/findings/acceptance";
import type { Fact } from "../../shared/site/site-facts";
import type { Measured } from "../../shared/units/measured";

export const exactly = (value: number): Measured => ({ value, low: value, high: value });
export const atMost = (high: number, from: AcceptanceLimit["from"]): AcceptanceLimit => ({ low: null, high, from });
export const atLeast = (low: number, from: AcceptanceLimit["from"]): AcceptanceLimit => ({ low, high: null, from });

/** Where a stated limit comes from; what is read from a log sets no limit. */
export const originOf = ({ from }: Fact<number>): AcceptanceLimit["from"] => (from === "log" ? "assumed" : from);

export const isInside = (value: number, { low, high }: AcceptanceLimit) =>
  (low === null || value >= low) && (high === null || value <= high);

/**
 * Met where the whole interval keeps the limit, not met where all of it lies outside; between the two nobody can tell.
 * Source: decision rule with guarded acceptance and rejection, ISO 14253-1 and JCGM 106, from memory.
 */
export function judge(id: AcceptanceId, limit: AcceptanceLimit, measured: Measured, wouldTell: WouldTellId = "log-longer"): AcceptanceLine {
  const inside = [measured.low, measured.value, measured.high].filter((value) => isInside(value, limit)).length;
  const state = inside === 3 ? "met" : inside === 0 && !spans(measured, limit) ? "not-met" : "cannot-tell";
  return { id, shown: ACCEPTANCE_SHOWN[id], limit, measured, state, wouldTell: state === "cannot-tell" ? wouldTell : null };
}

/** An interval wider than the band, with both ends outside on either side, holds values that keep it. */
const spans = (measured: Measured, { low, high }: AcceptanceLimit): boolean =>
  low !== null && high !== null && measured.low < low && measured.high > high;

export const cannotTell = (
  id: AcceptanceId,
  wouldTell: WouldTellId,
  limit: AcceptanceLimit | null = null,
  measured: Measured | null = null,
): AcceptanceLine => ({ id, shown: ACCEPTANCE_SHOWN[id], limit, measured, state: "cannot-tell", wouldTell });
