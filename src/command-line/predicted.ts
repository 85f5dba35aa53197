import type { Analysis } from "../../shared/findings/analysis";
import type { LogRecord } from "../../shared/record/log-record";

/** The analysis with what the fitted model says of each step of its advice. The model is loaded only where it is asked for. */
export async function predicted(record: LogRecord, analysis: Analysis): Promise<Analysis> {
  const [{ withEffects }, { atOneGo }] = await Promise.all([import("../worker/modelling"), import("../../analysis/numerics/at-one-go")]);
  return atOneGo(withEffects(record, analysis));
}
