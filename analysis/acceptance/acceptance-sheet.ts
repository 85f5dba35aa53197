import { ACCEPTANCE_IDS, type AcceptanceLine } from "../../shared/findings/acceptance";
import type { Analysis } from "../../shared/findings/analysis";
import type { LogRecord } from "../../shared/record/log-record";
import { FITTING } from "./fitting";
import { HOLDING } from "./holding";

/**
 * The sheet of a first log after installation: one line a check, each with limit, measured value and verdict, or what would tell.
 * @param record with pressure in gauge, as the analysis saw it
 */
export function acceptanceSheet(record: LogRecord, { outcomes, segments, site }: Analysis): readonly AcceptanceLine[] {
  const sight = { record, outcomes, segments, site };
  const lines = [...HOLDING, ...FITTING].map((check) => check(sight));
  return lines.toSorted((a, b) => ACCEPTANCE_IDS.indexOf(a.id) - ACCEPTANCE_IDS.indexOf(b.id));
}
