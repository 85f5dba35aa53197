import { findingOf, type Outcome } from "../../shared/findings/finding";
import { isCannotTell, type Segments } from "../../shared/findings/segment";
import type { FittedParameter, OutsideModel, ParameterId } from "../../shared/findings/what-if";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { atOneGo } from "../numerics/at-one-go";
import { quantile } from "../numerics/order-statistics";
import { combined, inLog, onLine } from "./fit/estimate";
import { explainedShare } from "./fit/explained";
import { fitLevels, fitStop } from "./fit/fit-levels";
import { fitLoop } from "./fit/fit-loop";
import { fitPump } from "./fit/fit-pump";
import { fitSleepDelay, fitSleepFlow } from "./fit/fit-sleep";
import { fitTank } from "./fit/fit-tank";
import { type Frame, frameOf, type ParameterValues, rampsOf, siteWith, valuesBy } from "./fit/frame";
import { refine } from "./fit/refine";
import { type Trace, traceOf } from "./fit/trace";
import { loopFromSwing, usualLoop } from "./fit/usual-loop";
import type { SiteModel } from "./site-model";

export type Parameters = Readonly<Record<ParameterId, FittedParameter>>;

export type FittedSite = {
  readonly model: SiteModel;
  readonly frame: Frame;
  readonly parameters: Parameters;
  readonly trace: Trace;
  /** Pressure at which the draw's openings are meant, Pa gauge. */
  readonly reference: number;
  /** Share of the pressure's variance the model explains by itself; null where it could not be run. */
  readonly explained: number | null;
  /** What the model cannot claim here; empty where it can. */
  readonly outside: readonly OutsideModel[];
};

const LEAST_EXPLAINED = 0.3;
const USUAL_DISTANCE = 1.5; // m

/**
 * The model of this site, from levels, slopes, volumes and the loop's own answers, with what the detectors found as it stands; what the log
 * does not fix keeps its usual spread and says so. Null where there is no pressure or no pump state to go by.
 */
export const fitSite = (
  record: LogRecord,
  segments: Segments,
  outcomes: readonly Outcome[],
  site: SiteFacts,
  faults: readonly LogFault[] = [],
): FittedSite | null => atOneGo(fitSiteInSteps(record, segments, outcomes, site, faults));

/** The same with a rest now and then, so that whoever waits for it can look up and stop it half-way. */
export function* fitSiteInSteps(
  record: LogRecord,
  segments: Segments,
  outcomes: readonly Outcome[],
  site: SiteFacts,
  faults: readonly LogFault[] = [],
): Generator<undefined, FittedSite | null> {
  const trace = traceOf(record, segments, faults);
  if (trace === null) return null;
  const still = fitStill(trace, outcomes, site);
  yield;
  const parameters = yield* fitMotion(trace, outcomes, still.parameters, still.frame);
  const model = siteWith(still.frame, valuesOf(parameters));
  const reference = parameters["set-pressure"].value;
  const explained = explainedShare(model, trace, reference);
  const severalPumps = !isCannotTell(segments.pump) && segments.pump.pumps.length > 1;
  return { model, frame: still.frame, parameters, trace, reference, explained, outside: outsideOf(explained, severalPumps, trace) };
}

/** Everything that needs no simulation; loop and sleep still as usual. */
function fitStill(trace: Trace, outcomes: readonly Outcome[], site: SiteFacts): { readonly parameters: Parameters; readonly frame: Frame } {
  const levels = fitLevels(trace, site, findingOf(outcomes, "tracking"));
  const setPressure = levels.setPressure.value;
  const tank = fitTank(trace, site, findingOf(outcomes, "tank-charge"), findingOf(outcomes, "leak-down"), setPressure);
  const pump = fitPump(trace, site, setPressure, tank.gasConstant.value);
  const frame = frameOf(trace, site, pump.ratedFlow);
  const parameters: Parameters = {
    "gas-constant": tank.gasConstant,
    "tank-volume": tank.volume,
    "back-leak": tank.backLeak,
    "system-leak": tank.systemLeak,
    "set-pressure": levels.setPressure,
    "restart-pressure": levels.restartPressure,
    "restart-delay": levels.restartDelay,
    "stop-pressure": levels.stopPressure,
    shutoff: pump.shutoff,
    steepness: pump.steepness,
    gain: inLog("gain", 1e-6, 0.7, "usual"),
    "integral-time": inLog("integral-time", 8, 0.8, "usual"),
    "loop-lag": inLog("loop-lag", 1.3, 0.6, "usual"),
    "lag-share": inLog("lag-share", 0.4, 0.4, "usual"),
    "ramp-time": fitRamp(trace),
    "sleep-flow": fitSleepFlow(trace, pump.ratedFlow),
    "sleep-delay": inLog("sleep-delay", 15, 0.6, "usual"),
    "sensor-distance": fitDistance(site, outcomes),
  };
  return { parameters, frame };
}

/** Motor and water round the ramp off, so that the fastest change seen is slower than the ramp itself. */
function fitRamp(trace: Trace): FittedParameter {
  const ramps = trace.speed === null ? null : rampsOf(trace.speed, trace.times, trace.run);
  return ramps === null ? inLog("ramp-time", 3, 0.4, "usual") : inLog("ramp-time", 0.85 * ramps.up, 0.2, "log");
}

/** Loop and sleep, which need the rest of the model to be read. */
function* fitMotion(trace: Trace, outcomes: readonly Outcome[], still: Parameters, frame: Frame): Generator<undefined, Parameters> {
  if (frame.control === "fixed-speed") return still;
  const values = valuesOf(still);
  const flow = trace.flow === null ? 0.3 * frame.ratedFlow : Math.max(0.1 * frame.ratedFlow, quantile(trace.flow, 0.8));
  const usual = usualLoop(frame, values);
  const direct = fitLoop(trace, values["set-pressure"]);
  yield;
  const loop =
    direct === null
      ? loopFromSwing(usual, findingOf(outcomes, "oscillation"), flow, frame, values)
      : {
          gain: combined(direct.gain, usual.gain),
          integralTime: combined(direct.integralTime, usual.integralTime),
          lag: combined(direct.lag, usual.lag),
        };
  const stop = fitStop(trace, values["set-pressure"], values["lag-share"] * loop.lag.value);
  const moving = { ...still, gain: loop.gain, "integral-time": loop.integralTime, "loop-lag": loop.lag, "stop-pressure": stop };
  yield;
  const asleep = { ...moving, "sleep-delay": fitSleepDelay(trace, frame, valuesOf(moving)) };
  return { ...asleep, ...(yield* refine(trace, frame, asleep, valuesOf(asleep))) };
}

function fitDistance(site: SiteFacts, outcomes: readonly Outcome[]): FittedParameter {
  const measured = findingOf(outcomes, "sensor")?.equivalentDistance ?? null;
  if (measured !== null) return { id: "sensor-distance", ...measured, scale: "linear", from: "log" };
  if (site.sensorToTank !== null) return onLine("sensor-distance", site.sensorToTank.value, 0.1 * site.sensorToTank.value + 0.1, "facts");
  return inLog("sensor-distance", USUAL_DISTANCE, 0.7, "usual");
}

/** The most likely value of each parameter. */
export const valuesOf = (parameters: Parameters): ParameterValues => valuesBy((id) => parameters[id].value);

function outsideOf(explained: number | null, severalPumps: boolean, trace: Trace): OutsideModel[] {
  const reasons: OutsideModel[] = [];
  if (explained === null) reasons.push({ id: "draw-not-known" });
  else if (explained < LEAST_EXPLAINED) reasons.push({ id: "explains-too-little", share: explained });
  if (severalPumps) reasons.push({ id: "several-pumps" });
  if (trace.interval > 5) reasons.push({ id: "sampling-too-slow-for-loop", intervalS: trace.interval });
  return reasons;
}
