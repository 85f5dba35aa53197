import type { Segments } from "../../shared/findings/segment";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { findDrawState } from "./draw-state";
import { findLivingTank } from "./living-tank";
import { findMeterPlace } from "./meter-place";
import { findPumpState, pumpFromDrive } from "./pump-state";
import { findSteadyWindows } from "./steady-flow";

/** What was going on in a record, worked out once for all detectors. */
export function findSegments(record: LogRecord, faults: readonly LogFault[], site: SiteFacts): Segments {
  const drive = pumpFromDrive(record, faults);
  const meter = findMeterPlace(record, faults, site, drive);
  const pump = findPumpState(record, faults, site, drive, meter);
  return {
    meter,
    pump,
    draw: findDrawState(record, faults, pump, meter),
    steady: findSteadyWindows(record, faults, pump),
    tank: findLivingTank(record, faults, pump, meter, site),
  };
}
