import type { ParameterId } from "../../../shared/findings/what-if";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { metre } from "../../../shared/units/quantity";
import { inertance } from "../../hydraulics/inertance";
import { quantile } from "../../numerics/order-statistics";
import type { DriveModel, SiteModel, SwitchModel } from "../site-model";
import { calmSensor, plainLogger } from "../sound-site";
import type { Trace } from "./trace";

/** What a fitted model takes as it is: kind of control, air pressure, pipe, ramps. */
export type Frame = {
  readonly control: "variable-speed" | "fixed-speed";
  readonly atmosphere: number;
  readonly bore: number;
  readonly ratedFlow: number;
  readonly leastSpeed: number;
  /** Time from full speed to standstill over the time up. */
  readonly downOverUp: number;
  readonly meterSeesLeak: boolean;
};

export type ParameterValues = Readonly<Record<ParameterId, number>>;

/** One value for each parameter. */
export const valuesBy = (of: (id: ParameterId) => number): ParameterValues => ({
  "gas-constant": of("gas-constant"),
  "tank-volume": of("tank-volume"),
  "set-pressure": of("set-pressure"),
  "restart-pressure": of("restart-pressure"),
  "restart-delay": of("restart-delay"),
  "stop-pressure": of("stop-pressure"),
  shutoff: of("shutoff"),
  steepness: of("steepness"),
  gain: of("gain"),
  "integral-time": of("integral-time"),
  "loop-lag": of("loop-lag"),
  "lag-share": of("lag-share"),
  "ramp-time": of("ramp-time"),
  "sleep-flow": of("sleep-flow"),
  "sleep-delay": of("sleep-delay"),
  "system-leak": of("system-leak"),
  "back-leak": of("back-leak"),
  "sensor-distance": of("sensor-distance"),
});

const USUAL_BORE = 0.041; // m, 1-1/2 in pipe
const USUAL_LEAST_SPEED = 0.4;
const SHORTEST_PIPE = 0.5; // m
const USUAL_RESISTANCE_PER_INERTANCE = 60; // 1/m3: steel of this bore with fittings, within a factor of two (Darcy, f 0.02 to 0.03)

export const controlOf = (trace: Pick<Trace, "speed">, site: SiteFacts): Frame["control"] =>
  site.pump ?? (trace.speed !== null || site.cutIn === null ? "variable-speed" : "fixed-speed");

export function frameOf(trace: Trace, site: SiteFacts, ratedFlow: number): Frame {
  const ramps = trace.speed === null ? null : rampsOf(trace.speed, trace.times, trace.run);
  return {
    control: controlOf(trace, site),
    atmosphere: site.atmosphere.value,
    bore: site.pipeInsideDiameter?.value ?? USUAL_BORE,
    ratedFlow,
    leastSpeed: ramps?.least ?? USUAL_LEAST_SPEED,
    downOverUp: ramps === null ? 1 : ramps.down / ramps.up,
    meterSeesLeak: true,
  };
}

/** Fastest rise and fall of speed, as times from standstill to full speed; the lowest speed that is not a start or stop. */
export function rampsOf(speed: ArrayLike<number>, times: Float64Array, run: Int32Array) {
  const [ups, downs, running]: number[][] = [[], [], []];
  for (let i = 1; i < speed.length; i++) {
    const rate = (speed[i] - speed[i - 1]) / (times[i] - times[i - 1]);
    if (rate > 0.02) ups.push(rate);
    if (rate < -0.02) downs.push(-rate);
    if (run[i] >= 0 && run[i - 1] === run[i] && speed[i] > 0.1) running.push(speed[i]);
  }
  if (ups.length < 10 || downs.length < 10 || running.length < 50) return null;
  return {
    up: Math.min(20, Math.max(0.5, 1 / quantile(ups, 0.98))),
    down: Math.min(20, Math.max(0.5, 1 / quantile(downs, 0.98))),
    least: Math.min(0.9, Math.max(0.2, quantile(running, 0.002))),
  };
}

/** The whole site from a frame and one value for each parameter. */
export function siteWith(frame: Frame, v: ParameterValues): SiteModel {
  const volume = v["tank-volume"];
  const distance = Math.max(0, v["sensor-distance"]);
  const length = Math.max(SHORTEST_PIPE, distance);
  const base: Omit<SiteModel, "control"> = {
    suctionPressure: 0,
    atmosphere: frame.atmosphere,
    pump: {
      shutoff: v.shutoff,
      steepness: v.steepness,
      ratedFlow: frame.ratedFlow,
      health: 1,
      withoutPrime: [],
      ratedCurrent: 1,
      ratedPower: 1,
    },
    backLeak: Math.max(0, v["back-leak"]),
    manifoldCompliance: 5e-10,
    pipe: { length, bore: frame.bore, resistance: USUAL_RESISTANCE_PER_INERTANCE * inertance(metre(length), metre(frame.bore)) },
    tank: { volume, precharge: v["gas-constant"] / volume - frame.atmosphere, gasLeft: 1, stiffness: 5e-10, heatTime: 0 },
    systemLeak: Math.max(0, v["system-leak"]),
    drawAt: "tank",
    sensor: { ...calmSensor, fromTank: distance, noise: 0, step: 0, range: { low: -1e5, high: 1e7 } },
    logger: { ...plainLogger, channels: ["pressure"], meter: { ...plainLogger.meter, seesLeak: frame.meterSeesLeak } },
  };
  return { ...base, control: frame.control === "fixed-speed" ? switchWith(v) : driveWith(frame, v, base.pipe.resistance) };
}

const switchWith = (v: ParameterValues): SwitchModel => ({
  kind: "fixed-speed",
  cutIn: v["restart-pressure"],
  cutOut: Math.max(v["restart-pressure"] + 1e3, v["stop-pressure"]),
  rampUp: 0.6,
  rampDown: 0.4,
});

const SEEN_RUNNING = 0.25; // speed share, after ramp and motor, at which a start is seen: the delay in the log holds that and the smoothing

/** The lag is shared out between the pace of the loop, the drive's smoothing (the lag share), and motor with water. */
function driveWith(frame: Frame, v: ParameterValues, resistance: number): DriveModel {
  const setPressure = v["set-pressure"];
  const interval = Math.min(0.5, Math.max(0.1, v["loop-lag"] / 10));
  const lag = Math.max(0, v["loop-lag"] - interval / 2);
  const filter = Math.min(0.95, Math.max(0.05, v["lag-share"])) * lag;
  const sleepHead = setPressure + (v.steepness + resistance) * v["sleep-flow"] ** 2;
  return {
    kind: "variable-speed",
    setPressure,
    gain: v.gain,
    integralTime: v["integral-time"],
    leastSpeed: Math.min(frame.leastSpeed, 0.98 * Math.sqrt(setPressure / v.shutoff)),
    rampUp: v["ramp-time"],
    rampDown: v["ramp-time"] * frame.downOverUp,
    interval,
    filter,
    motorLag: lag - filter,
    sleepSpeed: Math.sqrt(sleepHead / v.shutoff),
    sleepDelay: Math.max(0, v["sleep-delay"]),
    boost: Math.max(0, v["stop-pressure"] - setPressure),
    boostTime: 30,
    restartPressure: Math.min(setPressure - 2e3, v["restart-pressure"]),
    restartDelay: Math.max(interval, v["restart-delay"] - filter - SEEN_RUNNING * v["ramp-time"]),
    dryRunStop: null,
  };
}
