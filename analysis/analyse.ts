import type { Analysis } from "../shared/findings/analysis";
import { attempt, type Failure } from "../shared/findings/failure";
import type { Outcome } from "../shared/findings/finding";
import { inGauge } from "../shared/record/in-gauge";
import type { LogRecord } from "../shared/record/log-record";
import type { SiteFacts } from "../shared/site/site-facts";
import { advise } from "./advice/advise";
import { detectEach } from "./detectors";
import { diagnose } from "./diagnosis/diagnose";
import { withPumpKind } from "./diagnosis/pump-kind";
import { findFaults } from "./faults";
import { atOneGo } from "./numerics/at-one-go";
import { findSegments } from "./segments";

/** The whole path from record to advice at one go. */
export function analyse(asRead: LogRecord, site: SiteFacts): Analysis {
  return atOneGo(analyseInSteps(asRead, site));
}

/**
 * The whole path from record to advice, station after station, with a rest after each, so that a face can look up in between and stop it half-way;
 * after a detector the rest gives its outcome, which can be told before all is done.
 * A kind of fault, a segment, a detector, an observation or a rule that fails leaves the others, and is told in `failures`.
 * Pressure channels logged absolute are read as gauge with the site's air pressure.
 */
export function* analyseInSteps(asRead: LogRecord, site: SiteFacts): Generator<Outcome | undefined, Analysis> {
  const record = inGauge(asRead, site.atmosphere.value);
  const failures: Failure[] = [];
  const note = (failure: Failure) => void failures.push(failure);
  const faults = findFaults(record, note);
  yield;
  const segments = findSegments(record, faults, site, note);
  yield;
  const outcomes: Outcome[] = [];
  for (const outcome of detectEach({ record, faults, segments, site }, note)) {
    outcomes.push(outcome);
    yield outcome;
  }
  const causes = attempt("causes", "causes", note, () => diagnose(outcomes, segments, site, record, note), []);
  yield;
  const seen = { outcomes, segments, site, record };
  const told = () => {}; // where this fails, the causes have said so
  const { site: shown } = attempt("observation", "pump-kind", told, () => withPumpKind(seen), seen);
  const advice = advise(causes, outcomes, segments, shown, note);
  return { site, faults, segments, outcomes, causes, advice, failures };
}
