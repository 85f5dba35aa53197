import type { Analysis } from "../shared/findings/analysis";
import type { Segments } from "../shared/findings/segment";
import { inGauge } from "../shared/record/in-gauge";
import type { LogRecord } from "../shared/record/log-record";
import type { SiteFacts } from "../shared/site/site-facts";

import { detectAll } from "./detectors";

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
