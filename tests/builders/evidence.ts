import type { Evidence } from "../../analysis/detectors/detector";
import { findFaults } from "../../analysis/faults";
import { findSegments } from "../../analysis/segments";
import type { LogRecord } from "../../shared/record/log-record";
import { NO_SITE_FACTS, readSiteFacts } from "../../shared/site/read-site-facts";

/** All that a detector looks at, worked out from a record and site facts as a person writes them. */
export function evidenceOf(record: LogRecord, facts: Readonly<Record<string, unknown>> = {}): Evidence {
  const site = Object.keys(facts).length === 0 ? NO_SITE_FACTS : readSiteFacts(facts, "test");
  const faults = findFaults(record);
  return { record, faults, segments: findSegments(record, faults, site), site };
}
