import type { Advice } from "../shared/findings/advice";
import type { Cause } from "../shared/findings/cause";
import type { Outcome } from "../shared/findings/finding";
import type { Segments } from "../shared/findings/segment";
import { inGauge } from "../shared/record/in-gauge";
import type { LogFault } from "../shared/record/log-fault";
import type { LogRecord } from "../shared/record/log-record";
import type { SiteFacts } from "../shared/site/site-facts";

import { detectAll } from "./detectors";

/** All that was worked out of one record: the page keeps it, the findings document is written from it. */
export type Analysis = {
  readonly site: SiteFacts;
  readonly faults: readonly LogFault[];
  readonly segments: Segments;
  readonly outcomes: readonly Outcome[];
  readonly causes: readonly Cause[];
  readonly advice: readonly Advice[];
};

/** The whole path from record to advice, station after station. Pressure channels logged absolute are read as gauge with the site's air pressure. */
export function analyse(record: LogRecord, site: SiteFacts): Analysis {
  const gauged = inGauge(record, site.atmosphere.value);
  const faults = record.faults;
  const segments = NOTHING_KNOWN;
  const outcomes = detectAll({ record: gauged, faults, segments, site });
  return { site, faults, segments, outcomes, causes: [], advice: [] };
}

const NOTHING_KNOWN: Segments = {
  pump: { id: "no-pump-state", about: "starts", detail: {} },
  draw: { id: "no-flow-channel", about: "tank", detail: {} },
  steady: { id: "no-flow-channel", about: "drift", detail: {} },
  tank: { id: "no-flow-channel", about: "tank", detail: {} },
  meter: { place: null, from: null, certainty: 0 },
};
