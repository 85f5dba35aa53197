import type { FindingOf } from "../../../shared/findings/finding";
import type { FittedParameter } from "../../../shared/findings/what-if";
import { leastSquaresByMarquardt } from "../../numerics/levenberg-marquardt";
import { median } from "../../numerics/order-statistics";
import { demandOf } from "../demand";
import { steadyDraw } from "../draws";
import { simulateSite } from "../simulate-site";
import { loopSlope } from "../sound-site";
import { inLog } from "./estimate";
import type { FittedLoop } from "./fit-loop";
import { type Frame, type ParameterValues, siteWith } from "./frame";

const USUAL = { gainSpread: 0.7, integralTime: 8, integralSpread: 1.4, lag: 1.3, lagSpread: 0.6 }; // common practice, no source
const PERIOD_SPREAD = 0.08; // of the logarithm: what the model itself may be wrong by
const HEIGHT_SPREAD = 0.4;
const TRIAL = 240; // s of steady draw

/** A loop the log does not show by itself: as drives are usually set, for this tank and pump. */
export function usualLoop(frame: Frame, values: ParameterValues): FittedLoop {
  const site = siteWith(frame, values);
  const flow = 0.25 * frame.ratedFlow;
  const gain = 1 / (loopSlope(site, values["set-pressure"], flow) * 2 * USUAL.lag);
  return {
    gain: inLog("gain", gain, USUAL.gainSpread, "usual"),
    integralTime: inLog("integral-time", USUAL.integralTime, USUAL.integralSpread, "usual"),
    lag: inLog("loop-lag", USUAL.lag, USUAL.lagSpread, "usual"),
  };
}

/**
 * Gain and lag from a swing the detectors found: the period says how slow the loop is, that it swings at all and how high say how hot.
 * Fitted by simulating a steady draw; the usual spread counts as one more observation, so that what the swing does not fix stays wide.
 */
export function loopFromSwing(
  usual: FittedLoop,
  swing: FindingOf<"oscillation"> | null,
  flow: number,
  frame: Frame,
  values: ParameterValues,
): FittedLoop {
  const episodes = swing?.episodes.filter((episode) => episode.drivenBy === "loop" || episode.drivenBy === "unknown") ?? [];
  if (episodes.length === 0) return usual;
  const seen = { period: median(episodes.map((e) => e.period.value)), height: median(episodes.map((e) => e.peakToPeak.value)) };
  const start = [Math.log(3 * usual.gain.value), Math.log(Math.min(8, Math.max(0.3, seen.period / 3.5)))];
  const residuals = ([gain, lag]: readonly number[]) => {
    const found = swingOf(siteWith(frame, { ...values, gain: Math.exp(gain), "loop-lag": Math.exp(lag) }), flow);
    return [
      (Math.log(found.period) - Math.log(seen.period)) / PERIOD_SPREAD,
      (Math.log(found.height) - Math.log(seen.height)) / HEIGHT_SPREAD,
      (gain - Math.log(usual.gain.value)) / (2 * USUAL.gainSpread),
      (lag - Math.log(usual.lag.value)) / (2 * USUAL.lagSpread),
    ];
  };
  const fit = leastSquaresByMarquardt({
    start,
    low: [start[0] - 4, Math.log(0.1)],
    high: [start[0] + 4, Math.log(12)],
    steps: [0.1, 0.1],
    iterations: 15,
    residuals,
  });
  const spread = (i: number, else_: number) => (fit.covariance === null ? else_ : Math.sqrt(fit.covariance[i][i]));
  const told = (p: FittedParameter, i: number, wide: number) =>
    fit.cost < 12 ? inLog(p.id, Math.exp(fit.parameters[i]), Math.max(0.1, spread(i, wide)), "log") : p;
  return { gain: told(usual.gain, 0, USUAL.gainSpread), integralTime: usual.integralTime, lag: told(usual.lag, 1, USUAL.lagSpread) };
}

/** Period and height of the swing in a steady draw. Where it dies out: the period it would have, and a height that only tells "too little". */
function swingOf(site: ReturnType<typeof siteWith>, flow: number): { readonly period: number; readonly height: number } {
  const pressure = site.control.kind === "variable-speed" ? site.control.setPressure : 0;
  const { truth } = simulateSite(site, demandOf(steadyDraw(5, TRIAL, flow), pressure), TRIAL, 1);
  const last = truth.oscillations.at(-1);
  if (last === undefined)
    return { period: 5 * (site.control.kind === "variable-speed" ? site.control.filter + site.control.motorLag : 1), height: 500 };
  const share = Math.min(1, (last.to - last.from) / (0.5 * TRIAL));
  return { period: last.period, height: last.peakToPeak * share + 500 * (1 - share) };
}
