import type { AcceptanceLine } from "../../shared/findings/acceptance";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { ACCEPTANCE_NAMES, sayLimit, sayMeasured, sayWouldTell } from "../../shared/wording/acceptance";

/** Names of the checks that are not met. */
export const notMet = (sheet: FindingsDocument["acceptance"]): readonly string[] =>
  sheet.flatMap(({ name, state }) => (state === "not-met" ? [name] : []));

/** The acceptance sheet as sentences and numbers, in its order. */
export function writeAcceptance(lines: readonly AcceptanceLine[], units: UnitChoice): FindingsDocument["acceptance"] {
  return lines.map((line) => ({
    id: line.id,
    name: ACCEPTANCE_NAMES[line.id],
    limit: line.limit === null ? null : sayLimit(line.limit, line.shown, units),
    limitLow: line.limit?.low ?? null,
    limitHigh: line.limit?.high ?? null,
    measured: line.measured,
    value: sayMeasured(line, units),
    state: line.state,
    wouldTell: line.wouldTell === null ? null : sayWouldTell(line.wouldTell),
  }));
}
