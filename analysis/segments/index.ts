import type { CannotTell, CannotTellTopic } from "../../shared/findings/cannot-tell";
import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import { isCannotTell, type MeterPlace, type Segments } from "../../shared/findings/segment";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { findDrawState } from "./draw-state";
import { findLivingTank } from "./living-tank";
import { findMeterPlace } from "./meter-place";
import { findPumpState, pumpFromDrive } from "./pump-state";
import { findSteadyWindows } from "./steady-flow";

/** What is asked of a record, each by itself, so that one that fails leaves the others. */
export const SEGMENT_FINDERS = {
  drive: pumpFromDrive,
  "meter-place": findMeterPlace,
  pump: findPumpState,
  draw: findDrawState,
  steady: findSteadyWindows,
  tank: findLivingTank,
};

const NO_PLACE: MeterPlace = { place: null, from: null, certainty: 0 };
const failedAt = (about: CannotTellTopic): CannotTell => ({ id: "program-failed", about, detail: {} });

/** What was going on in a record, worked out once for all detectors. One that fails is told, and stands as "cannot tell" for all that lean on it. */
export function findSegments(record: LogRecord, faults: readonly LogFault[], site: SiteFacts, onFailure: OnFailure = raise): Segments {
  const find = SEGMENT_FINDERS;
  const guarded = <T, F>(id: keyof typeof find, work: () => T, otherwise: F): T | F =>
    attempt<T | F>("segment", id, onFailure, work, otherwise);
  const drive = guarded("drive", () => find.drive(record, faults), failedAt("starts"));
  const isLost = drive !== null && isCannotTell(drive);
  const meter = guarded("meter-place", () => find["meter-place"](record, faults, site, isLost ? null : drive), NO_PLACE);
  // Where the drive's own witness is lost, a lesser one would give another answer to the same question.
  const pump = isLost ? drive : guarded("pump", () => find.pump(record, faults, site, drive, meter), failedAt("starts"));
  return {
    meter,
    pump,
    draw: guarded("draw", () => find.draw(record, faults, pump, meter), failedAt("leak")),
    steady: guarded("steady", () => find.steady(record, faults, pump), failedAt("drift")),
    tank: guarded("tank", () => find.tank(record, faults, pump, meter, site), failedAt("tank")),
  };
}
