import type { Rule } from "../rule";
import { calmSensorPlace } from "./calm-sensor-place";
import { checkCheckValve } from "./check-check-valve";
import { checkPrecharge } from "./check-precharge";
import { checkPumpDirection } from "./check-pump-direction";
import { checkPumpSize } from "./check-pump-size";
import { checkSensorScaling } from "./check-sensor-scaling";
import { clearSensorPort } from "./clear-sensor-port";
import { findLeak } from "./find-leak";
import { largerTank } from "./larger-tank";
import { lengthenSleepDelay } from "./lengthen-sleep-delay";
import { logMore } from "./log-more";
import { lookForPeriodicDemand } from "./look-for-periodic-demand";
import { lowerLoopGain } from "./lower-loop-gain";
import { lowerPrecharge } from "./lower-precharge";
import { moveSensor } from "./move-sensor";
import { nothingToChange } from "./nothing-to-change";
import { protectSensorFromFrost } from "./protect-sensor-from-frost";
import { raiseLoopGain } from "./raise-loop-gain";
import { raisePrecharge } from "./raise-precharge";
import { replaceTank } from "./replace-tank";
import { restorePrime } from "./restore-prime";
import { stopOverMarkedPressure } from "./stop-over-marked-pressure";

/** Every recommendation: look, measure, change, bring; within each the cheaper step first. */
export const RULES: readonly Rule[] = [
  stopOverMarkedPressure,
  findLeak,
  restorePrime,
  checkPumpDirection,
  lookForPeriodicDemand,
  nothingToChange,
  checkPrecharge,
  checkSensorScaling,
  checkCheckValve,
  checkPumpSize,
  logMore,
  raisePrecharge,
  lowerPrecharge,
  moveSensor,
  calmSensorPlace,
  clearSensorPort,
  protectSensorFromFrost,
  lengthenSleepDelay,
  lowerLoopGain,
  raiseLoopGain,
  largerTank,
  replaceTank,
];
