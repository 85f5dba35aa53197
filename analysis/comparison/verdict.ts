import type { ComparedMeasure, MeasureId, Verdict } from "../../shared/findings/comparison";
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

const isBetter = (id: MeasureId, { low, high }: Measured): boolean => (HIGHER_IS_BETTER.includes(id) ? low > 0 : high < 0);

/**
 * What a measure says of a change. The acceptance limit decides first; a difference counts only where its 95 % interval leaves out zero.
 * @param limit null where none is set     @param mayMeet false where something else keeps the limit from being met
 */
export function verdictOf(id: MeasureId, after: Measured, difference: Measured, limit: number | null, mayMeet = true): Verdict {
  if (mayMeet && keepsLimit(id, after, limit)) return "met";
  if (isBetter(id, difference)) return limit === null ? "better" : "better-but-not-met";
  const isWorse = HIGHER_IS_BETTER.includes(id) ? difference.high < 0 : difference.low > 0;
  return isWorse ? "worse" : "no-change-shown";
}

type Judged = Pick<ComparedMeasure, "id" | "verdict" | "limit" | "difference">;

/**
 * The verdict of the visit from the measures that have a limit: worse where one is; met where all are; better but not met where one became
 * plainly better and not all are met; else no change shown. "cannot-compare" where none could be compared.
 */
export function overallVerdict(measures: readonly Judged[]): Verdict {
  const judged = measures.filter((m) => m.verdict !== "cannot-compare" && (m.limit !== null || m.verdict === "worse"));
  if (judged.length === 0) return "cannot-compare";
  if (judged.some((m) => m.verdict === "worse")) return "worse";
  if (judged.every((m) => m.verdict === "met")) return "met";
  return judged.some(becameBetter) ? "better-but-not-met" : "no-change-shown";
}

/** A measure that is met may have been met before as well: only its difference tells of a change. */
const becameBetter = ({ id, verdict, difference }: Judged): boolean =>
  verdict === "better-but-not-met" || (verdict === "met" && difference !== null && isBetter(id, difference));
