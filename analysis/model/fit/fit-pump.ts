import type { FittedParameter } from "../../../shared/findings/what-if";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { clusteredRegression } from "../../numerics/clustered-regression";
import { quantile } from "../../numerics/order-statistics";
import { inLog, widened } from "./estimate";
import { aboveReached, fitSwitchPump } from "./fit-switch-pump";
import { controlOf } from "./frame";
import type { Trace } from "./trace";

export type FittedPump = { readonly shutoff: FittedParameter; readonly steepness: FittedParameter; readonly ratedFlow: number };

const STEADY_PRESSURE = 1.5e3; // Pa between samples
const STEADY_SPEED = 0.006;
const SETTLED = 15; // s
const LEAST_POINTS = 40;
const FORM_ERROR = 0.02; // of the logarithm: the curve is no exact parabola, and fittings take their part
const USUAL_SHUTOFF = 1.45; // of the set pressure; common practice, no source

/**
 * The pump's curve from steady running: s^2 = p/H0 + (r/H0) Q^2, regressed with runs as clusters. Speed is the noisy side.
 * Suction is taken as atmospheric: a well's lift or a fed inlet then hides in the shutoff pressure, which the loop does not notice.
 */
export function fitPump(trace: Trace, site: SiteFacts, setPressure: number, gasConstant: number): FittedPump {
  const peak = trace.flow === null ? null : quantile(trace.flow, 0.995);
  const ratedFlow = site.pumpRatedFlow?.value ?? Math.max(1e-5, peak ?? 2.5e-3);
  const usual = {
    shutoff: inLog("shutoff", USUAL_SHUTOFF * setPressure, 0.15, "usual"),
    steepness: inLog("steepness", ((USUAL_SHUTOFF - 1) * setPressure) / ratedFlow ** 2, 0.4, "usual"),
    ratedFlow,
  };
  if (controlOf(trace, site) === "fixed-speed") {
    const curve = fitSwitchPump(trace, gasConstant, site.atmosphere.value);
    return curve === null ? { ...usual, shutoff: aboveReached(usual.shutoff, trace) } : { ...usual, ...curve };
  }
  const points = steadyPoints(trace);
  if (points === null || points.square.length < LEAST_POINTS) return usual;
  const fit = clusteredRegression([points.pressure, points.flowSquare], points.square, points.run);
  if (fit === null || !(fit.coefficients[0] > 0 && fit.coefficients[1] > 0)) return usual;
  const [perPressure, perFlow] = fit.coefficients;
  const shutoffSd = Math.sqrt(fit.covariance[0][0]) / perPressure;
  const ratio = { own: fit.covariance[1][1] / perFlow ** 2, both: fit.covariance[0][1] / (perFlow * perPressure) };
  const steepnessSd = Math.sqrt(Math.max(0, ratio.own + shutoffSd ** 2 - 2 * ratio.both));
  return {
    shutoff: widened(inLog("shutoff", 1 / perPressure, shutoffSd, "log", fit.reach), FORM_ERROR / 4),
    steepness:
      steepnessSd < 0.5 ? widened(inLog("steepness", perFlow / perPressure, steepnessSd, "log", fit.reach), FORM_ERROR) : usual.steepness,
    ratedFlow,
  };
}

function steadyPoints(trace: Trace) {
  const { times, pressure, flow, speed, run, runs } = trace;
  if (speed === null || flow === null) return null;
  const [square, level, flowSquare, of]: number[][] = [[], [], [], []];
  const least = 0.03 * quantile(flow, 0.99);
  for (let i = 2; i < times.length; i++) {
    const r = run[i];
    if (r < 0 || times[i] - runs[r].from < SETTLED || runs[r].to - times[i] < 3 || flow[i] < least) continue;
    const moves = Math.max(Math.abs(pressure[i] - pressure[i - 1]), Math.abs(pressure[i] - pressure[i - 2]));
    const turns = Math.max(Math.abs(speed[i] - speed[i - 1]), Math.abs(speed[i] - speed[i - 2]));
    const flows = Math.max(Math.abs(flow[i] - flow[i - 1]), Math.abs(flow[i] - flow[i - 2]));
    if (!(moves < STEADY_PRESSURE && turns < STEADY_SPEED && flows < 0.1 * flow[i]) || speed[i] > 0.998) continue;
    square.push(speed[i] ** 2);
    level.push(pressure[i]);
    flowSquare.push(flow[i] ** 2);
    of.push(r);
  }
  return { square: Float64Array.from(square), pressure: Float64Array.from(level), flowSquare: Float64Array.from(flowSquare), run: of };
}
