import { ACCEPTANCE_IDS, type AcceptanceLine } from "../../shared/findings/acceptance";
import type { Analysis } from "../../shared/findings/analysis";
import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import type { LogRecord } from "../../shared/record/log-record";
import { FITTING } from "./fitting";
import { HOLDING } from "./holding";

/**
 * The sheet of a first log after installation: one line a check, each with limit, measured value and verdict, or what would tell.
 * @param record with pressure in gauge, as the analysis saw it
 */
export function acceptanceSheet(
  record: LogRecord,
  { outcomes, segments, site }: Analysis,
  onFailure: OnFailure = raise,
): readonly AcceptanceLine[] {
  const sight = { record, outcomes, segments, site };
  const lines = [...HOLDING, ...FITTING].flatMap((check, i) =>
    attempt<readonly AcceptanceLine[]>("acceptance", `line-${i + 1}`, onFailure, () => [check(sight)], []),
  );
  return lines.toSorted((a, b) => ACCEPTANCE_IDS.indexOf(a.id) - ACCEPTANCE_IDS.indexOf(b.id));
}
