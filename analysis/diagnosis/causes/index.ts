import type { CauseTable } from "./cause-table";
import { demandIsPeriodic } from "./demand-is-periodic";
import { healthy } from "./healthy";
import { leakOrCheckValve } from "./leak-or-check-valve";
import { loopTooAggressive } from "./loop-too-aggressive";
import { loopTooSlow } from "./loop-too-slow";
import { lossOfPrime } from "./loss-of-prime";
import { prechargeHigh } from "./precharge-high";
import { prechargeLow } from "./precharge-low";
import { pumpTurningBackwardsOrWeak } from "./pump-turning-backwards-or-weak";
import { sensorFarFromTank } from "./sensor-far-from-tank";
import { sensorFrozenOrStuck } from "./sensor-frozen-or-stuck";
import { sensorInTurbulence } from "./sensor-in-turbulence";
import { sensorPortPlugged } from "./sensor-port-plugged";
import { sensorScalingWrong } from "./sensor-scaling-wrong";
import { sleepSettingsHunting } from "./sleep-settings-hunting";
import { tankTooSmall } from "./tank-too-small";
import { tankWaterlogged } from "./tank-waterlogged";
import { undersizedPumpOrOverdraw } from "./undersized-pump-or-overdraw";

/** Every cause that competes, in the order of CAUSE_IDS. */
export const CAUSES: readonly CauseTable[] = [
  tankTooSmall,
  prechargeLow,
  prechargeHigh,
  tankWaterlogged,
  sensorFarFromTank,
  sensorInTurbulence,
  sensorPortPlugged,
  sensorFrozenOrStuck,
  sensorScalingWrong,
  loopTooAggressive,
  loopTooSlow,
  leakOrCheckValve,
  demandIsPeriodic,
  sleepSettingsHunting,
  lossOfPrime,
  pumpTurningBackwardsOrWeak,
  undersizedPumpOrOverdraw,
  healthy,
];
