import type { LogFault } from "../record/log-fault";
import type { SiteFacts } from "../site/site-facts";
import type { Advice } from "./advice";
import type { Cause } from "./cause";
import type { Failure } from "./failure";
import type { Outcome } from "./finding";
import type { Segments } from "./segment";

/** All that was worked out of one record: the page keeps it, the findings document is written from it. */
export type Analysis = {
  readonly site: SiteFacts;
  readonly faults: readonly LogFault[];
  readonly segments: Segments;
  readonly outcomes: readonly Outcome[];
  readonly causes: readonly Cause[];
  readonly advice: readonly Advice[];
  /** Parts that failed on this record; empty where the program is sound. */
  readonly failures: readonly Failure[];
};
