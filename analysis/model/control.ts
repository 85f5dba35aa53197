import type { DriveModel, SiteModel, SwitchModel } from "./site-model";

/** What turns the pump. `act` is called at a steady pace with the sensor's reading and gives the speed asked for. */
export type Control = {
  act(reading: number, speed: number, t: number): number;
  /** Asked to stand still: nothing happens until the reading falls to `wakesAt` or the time `wakesBy` comes. */
  resting(): boolean;
  /** Begins in the middle of a run at this speed. */
  begin(speed: number): void;
  readonly wakesAt: number;
  wakesBy(): number;
  readonly interval: number;
  readonly rampUp: number;
  readonly rampDown: number;
  readonly motorLag: number;
};

export const makeControl = (site: SiteModel): Control =>
  site.control.kind === "variable-speed" ? makeDrive(site.control) : makeSwitch(site.control);

function makeSwitch(model: SwitchModel): Control {
  let on = false;
  return {
    act: (reading) => {
      if (reading <= model.cutIn) on = true;
      else if (reading >= model.cutOut) on = false;
      return on ? 1 : 0;
    },
    resting: () => !on,
    begin: (speed) => {
      on = speed > 0;
    },
    wakesAt: model.cutIn,
    wakesBy: () => Number.POSITIVE_INFINITY,
    interval: 0.1,
    rampUp: model.rampUp,
    rampDown: model.rampDown,
    motorLag: 0,
  };
}

const SLEEPS_FROM = 0.99; // share of the set pressure that must be there before a drive goes to sleep

type Mode = "stopped" | "holding" | "boosting" | "tripped";

/**
 * PI control of pressure by speed. The integral stops where the output meets a limit or the ramp cannot follow (anti-windup by
 * conditional integration). Sleep: at or below the sleep speed for the delay, then a boost, then stop; wakes at the restart pressure.
 */
function makeDrive(model: DriveModel): Control {
  let mode: Mode = "stopped";
  let integral = 0;
  let below = 0; // s at sleep speed, or below the restart pressure, or dry
  let since = 0; // when the mode began, s
  const gainOverTime = model.gain / model.integralTime;
  const follow = model.filter > 0 ? 1 - Math.exp(-model.interval / model.filter) : 1;
  let smoothed = Number.NaN;
  let lastAct = Number.NEGATIVE_INFINITY;
  const smooth = (reading: number, t: number) => {
    const fresh = Number.isNaN(smoothed) || t - lastAct > 2 * model.interval; // a long rest: it has long caught up
    smoothed = fresh ? reading : smoothed + follow * (reading - smoothed);
    lastAct = t;
    return smoothed;
  };
  const enter = (next: Mode, t: number) => {
    mode = next;
    below = 0;
    since = t;
  };
  const hold = (target: number, reading: number, speed: number) => {
    const error = target - reading;
    const wanted = model.gain * error + integral;
    const asked = Math.min(1, Math.max(model.leastSpeed, wanted));
    const behind = asked - speed; // of the ramp
    const pushesOut = (wanted > asked && error > 0) || (wanted < asked && error < 0) || Math.abs(behind) > 0.2;
    if (!pushesOut) integral += gainOverTime * error * model.interval;
    return asked;
  };
  const stopped = (reading: number, t: number) => {
    below = reading < model.restartPressure ? below + model.interval : 0;
    if (below < model.restartDelay) return 0;
    enter("holding", t);
    integral = model.sleepSpeed;
    return model.leastSpeed;
  };
  const dry = (reading: number, speed: number, t: number) => {
    if (model.dryRunStop === null) return false;
    if (speed < 0.98 || reading > 0.25 * model.setPressure) {
      dryFor = 0;
      return false;
    }
    dryFor += model.interval;
    if (dryFor < model.dryRunStop.after) return false;
    dryFor = 0;
    enter("tripped", t);
    return true;
  };
  let dryFor = 0;
  const holding = (reading: number, speed: number, t: number) => {
    if (dry(reading, speed, t)) return 0;
    const asked = hold(model.setPressure, reading, speed);
    below = speed <= model.sleepSpeed && reading >= SLEEPS_FROM * model.setPressure ? below + model.interval : 0;
    if (below >= model.sleepDelay) {
      enter("boosting", t);
      if (model.boost <= 0) {
        enter("stopped", t);
        return 0;
      }
    }
    return asked;
  };
  const boosting = (reading: number, speed: number, t: number) => {
    if (reading >= model.setPressure + model.boost || t - since >= model.boostTime) {
      enter("stopped", t);
      return 0;
    }
    if (reading < (model.setPressure + model.restartPressure) / 2) enter("holding", t);
    return hold(model.setPressure + 1.05 * model.boost, reading, speed);
  };
  return {
    act: (raw, speed, t) => {
      const reading = smooth(raw, t);
      if (mode === "stopped") return stopped(reading, t);
      if (mode === "holding") return holding(reading, speed, t);
      if (mode === "boosting") return boosting(reading, speed, t);
      if (model.dryRunStop !== null && t - since >= model.dryRunStop.retryAfter) enter("stopped", t);
      return 0;
    },
    resting: () => mode === "stopped" || mode === "tripped",
    begin: (speed) => {
      mode = speed > 0 ? "holding" : "stopped";
      integral = speed;
    },
    wakesAt: model.restartPressure,
    wakesBy: () => (mode === "tripped" && model.dryRunStop !== null ? since + model.dryRunStop.retryAfter : Number.POSITIVE_INFINITY),
    interval: model.interval,
    rampUp: model.rampUp,
    rampDown: model.rampDown,
    motorLag: model.motorLag,
  };
}
