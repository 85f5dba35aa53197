import type { Advice } from "../shared/findings/advice";
import type { Cause } from "../shared/findings/cause";
import type { Outcome } from "../shared/findings/finding";
import type { Segments } from "../shared/findings/segment";
import type { LogFault } from "../shared/record/log-fault";
import type { LogRecord } from "../shared/record/log-record";
import type { SiteFacts } from "../shared/site/site-facts";

/** All that was worked out of one record: the page keeps it, the findings document is written from it. */
export type Analysis = {
  readonly site: SiteFacts;
  readonly faults: readonly LogFault[];
  readonly segments: Segments;
  readonly outcomes: readonly Outcome[];
  readonly causes: readonly Cause[];
  readonly advice: readonly Advice[];
};

/** The whole path from record to advice, station after station. */
export declare function analyse(record: LogRecord, site: SiteFacts): Analysis;
