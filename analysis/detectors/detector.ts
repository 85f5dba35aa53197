import type { FindingKind, Outcome } from "../../shared/findings/finding";
import type { Segments } from "../../shared/findings/segment";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";

/** All that a detector may look at. */
export type Evidence = {
  readonly record: LogRecord;
  /** Of the reading and of the values; a detector leaves these stretches out. */
  readonly faults: readonly LogFault[];
  readonly segments: Segments;
  readonly site: SiteFacts;
};

/** One question asked of a record. Pure: same evidence, same outcome. */
export type Detector<K extends FindingKind> = {
  readonly kind: K;
  detect(evidence: Evidence): Outcome<K>;
};
