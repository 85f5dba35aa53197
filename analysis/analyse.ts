import type { Analysis } from "../shared/findings/analysis";
import { attempt, type Failure } from "../shared/findings/failure";
import { inGauge } from "../shared/record/in-gauge";
import type { LogRecord } from "../shared/record/log-record";
import type { SiteFacts } from "../shared/site/site-facts";
import { advise } from "./advice/advise";
import { detectAll } from "./detectors";
import { diagnose } from "./diagnosis/diagnose";
import { findFaults } from "./faults";
import { findSegments } from "./segments";

/**
 * The whole path from record to advice, station after station.
 * A detector, an observation or a rule that fails leaves the others, and is told in `failures`.
 * Pressure channels logged absolute are read as gauge with the site's air pressure.
 */
export function analyse(asRead: LogRecord, site: SiteFacts): Analysis {
  const record = inGauge(asRead, site.atmosphere.value);
  const faults = findFaults(record);
  const segments = findSegments(record, faults, site);
  const failures: Failure[] = [];
  const note = (failure: Failure) => void failures.push(failure);
  const outcomes = detectAll({ record, faults, segments, site }, note);
  const causes = attempt("causes", "causes", note, () => diagnose(outcomes, segments, site, record, note), []);
  const advice = advise(causes, outcomes, segments, site, note);
  return { site, faults, segments, outcomes, causes, advice, failures };
}
