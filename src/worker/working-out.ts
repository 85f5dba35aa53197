/** All that follows the reading of a record, in one piece to load. */
import { measureVisit as measure } from "../../analysis/comparison/visit-measures";
import type { Analysis } from "../../shared/findings/analysis";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";

export { analyseInSteps } from "../../analysis/analyse";
export { writeFindings } from "../../analysis/document/findings-document";
export { makeLook } from "../charts/looks/make-look";

export const measureVisit = (record: LogRecord, analysis: Analysis) => measure(inGauge(record, analysis.site.atmosphere.value), analysis);
