import type { MeasureId, Verdict } from "../../shared/findings/comparison";
import type { Measured } from "../../shared/units/measured";

const HIGHER_IS_BETTER: readonly MeasureId[] = ["share-within-band"];

/** None seen is none shown only after a day of logging: upper 95 % limit of a daily rate with no event in one day (Garwood 1936). */
const NONE_IN_A_DAY = 3.689;

/** Whether a value keeps the limit with its whole interval. */
export function keepsLimit(id: MeasureId, { value, low, high }: Measured, limit: number | null): boolean {
  if (limit === null) return false;
  if (limit === 0) return value === 0 && high <= NONE_IN_A_DAY;
  return HIGHER_IS_BETTER.includes(id) ? low >= limit : high <= limit;
}

/**
 * What a measure says of a change. The acceptance limit decides first; a difference counts only where its 95 % interval leaves out zero.
 * @param limit null where none is set     @param mayMeet false where something else keeps the limit from being met
 */
export function verdictOf(id: MeasureId, after: Measured, difference: Measured, limit: number | null, mayMeet = true): Verdict {
  if (mayMeet && keepsLimit(id, after, limit)) return "met";
  const sign = HIGHER_IS_BETTER.includes(id) ? -1 : 1;
  const better = sign > 0 ? difference.high < 0 : difference.low > 0;
  const worse = sign > 0 ? difference.low > 0 : difference.high < 0;
  if (better) return limit === null ? "better" : "better-but-not-met";
  return worse ? "worse" : "no-change-shown";
}

const FROM_WEAKEST: readonly Verdict[] = ["worse", "no-change-shown", "better-but-not-met", "met"];

/** The weakest verdict among the measures that have a limit; "cannot-compare" where none could be compared. */
export function overallVerdict(measures: readonly { readonly verdict: Verdict; readonly limit: number | null }[]): Verdict {
  const judged = measures.filter((m) => m.limit !== null || m.verdict === "worse").map((m) => m.verdict);
  return FROM_WEAKEST.find((verdict) => judged.includes(verdict)) ?? "cannot-compare";
}
