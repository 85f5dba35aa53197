import type { FittedParameter, ParameterId } from "../../../shared/findings/what-if";
import { type LeastSquaresSolution, leastSquaresInSteps } from "../../numerics/levenberg-marquardt";
import { inLog, onLine, REACH } from "./estimate";
import { type Frame, type ParameterValues, siteWith } from "./frame";
import { misfit, runCases } from "./run-shapes";
import type { Trace } from "./trace";

/** Parameters of motion that the shapes of runs tell, with the step for their slope. */
const MOVED = [
  ["gain", 0.04],
  ["integral-time", 0.08],
  ["loop-lag", 0.05],
  ["lag-share", 0.06],
  ["ramp-time", 0.06],
  ["stop-pressure", 800],
  ["sleep-delay", 0.05],
  ["sleep-flow", 0.08],
  ["restart-delay", 0.15],
] as const satisfies readonly (readonly [ParameterId, number])[];

const LEAST_CASES = 4;
/** Standard deviation of the logarithm that a direct reading may be wrong by through the model's form alone, as measured on simulated sites. */
const FORM_ERROR: Partial<Record<ParameterId, number>> = {
  gain: 0.25,
  "integral-time": 0.5,
  "loop-lag": 0.3,
  "sleep-delay": 0.7,
  "sleep-flow": 0.15,
};
/** Sleep delays to start from beside the direct reading, s: a run's length has several explanations, and the nearest need not be the best. */
const OTHER_DELAYS = [10, 35];

const UNSURE = 0.5; // share of a direct reading's unsureness beyond its form that stays: shapes alone are not trusted to the full
/** What remains of it when the whole model has been run against the record. */
const SMALL_FORM_ERROR: Partial<Record<ParameterId, number>> = {
  gain: 0.06,
  "integral-time": 0.12,
  "loop-lag": 0.1,
  "ramp-time": 0.11,
  "sleep-delay": 0.2,
};

/** The same beside it where the logger sees the loop only every five seconds, and where it does not see the speed at all; measured likewise. */
const UNSEEN_BETWEEN: Partial<Record<ParameterId, number>> = {
  gain: 0.25,
  "integral-time": 0.6,
  "loop-lag": 0.25,
  "ramp-time": 0.35,
  "stop-pressure": 2e3,
};
const UNSEEN_SPEED: Partial<Record<ParameterId, number>> = {
  gain: 0.55,
  "integral-time": 0.7,
  "loop-lag": 0.25,
  "ramp-time": 0.3,
  "stop-pressure": 3e3,
};

/** What the model's form may be wrong by: a standard deviation of the logarithm, or of the value itself. */
function formError(id: ParameterId, scale: FittedParameter["scale"], { interval, speed }: Pick<Trace, "interval" | "speed">): number {
  const between = Math.min(1, Math.max(0, (interval - 1) / 4)) * (UNSEEN_BETWEEN[id] ?? 0);
  const blind = speed === null ? (UNSEEN_SPEED[id] ?? 0) : 0;
  return Math.hypot(SMALL_FORM_ERROR[id] ?? (scale === "log" ? 0.05 : 0), between, blind);
}

export type Refined = Partial<Record<ParameterId, FittedParameter>>;

/**
 * The parameters of motion refitted together on the shapes of a dozen runs, each simulated from the rest before it with the draw as logged.
 * The direct readings (or the usual values) are one observation each, so what the shapes do not fix stays as wide as it was.
 * Empty where the record has too few runs, or is sampled so slowly that a run has no shape.
 */
export function* refine(
  trace: Trace,
  frame: Frame,
  parameters: Readonly<Record<ParameterId, FittedParameter>>,
  values: ParameterValues,
): Generator<undefined, Refined> {
  const cases = trace.interval > 5 ? [] : runCases(trace, siteWith(frame, values), values["set-pressure"]);
  if (cases.length < LEAST_CASES) return {};
  const before = MOVED.map(([id]) => priorOf(parameters[id]));
  const withMoved = (x: readonly number[]): ParameterValues => ({
    ...values,
    ...Object.fromEntries(MOVED.map(([id], i) => [id, parameters[id].scale === "log" ? Math.exp(x[i]) : x[i]])),
  });
  const residuals = (x: readonly number[]) => {
    const site = siteWith(frame, withMoved(x));
    const shapes = cases.flatMap((run) => misfit(site, run, trace.interval, trace.speed !== null));
    return [...shapes.map((value) => value / Math.sqrt(SHARED)), ...x.map((value, i) => (value - before[i].centre) / before[i].sd)];
  };
  const start = before.map((prior) => prior.centre);
  const low = before.map((prior) => prior.centre - 5 * prior.sd);
  const high = before.map((prior) => prior.centre + 5 * prior.sd);
  const fitFrom = (from: readonly number[], iterations: number) =>
    leastSquaresInSteps({
      start: from.map((value, i) => Math.min(high[i], Math.max(low[i], value))),
      low,
      high,
      steps: MOVED.map(([, step]) => step),
      huber: 2,
      iterations,
      residuals,
    });
  const sleep = MOVED.findIndex(([id]) => id === "sleep-delay");
  const starts = [start, ...OTHER_DELAYS.map((delay) => start.map((value, i) => (i === sleep ? Math.log(delay) : value)))];
  const tried: LeastSquaresSolution[] = [];
  for (const from of starts) tried.push(yield* fitFrom(from, 2));
  tried.sort((a, b) => a.cost - b.cost);
  const fit = yield* fitFrom(tried[0].parameters, 12);
  if (fit.covariance === null) return {};
  const covariance = fit.covariance;
  const freedom = (cases.length * cases[0].seen.length) / SHARED;
  const worse = Math.sqrt(Math.max(1, fit.cost / freedom)); // shapes that the model's form cannot meet widen all intervals
  return Object.fromEntries(
    MOVED.map(([id], i) => [
      id,
      told(parameters[id], fit.parameters[i], {
        fitted: Math.hypot(worse * Math.sqrt(covariance[i][i]), formError(id, parameters[id].scale, trace)),
        prior: before[i].sd,
      }),
    ]),
  );
}

/** Numbers of one run hang together: three of them count as one. */
const SHARED = 3;

function priorOf(parameter: FittedParameter): { readonly centre: number; readonly sd: number } {
  const { value, low, high } = parameter;
  if (parameter.scale === "linear")
    return { centre: value, sd: Math.max((high - low) / 2 / REACH, parameter.id === "restart-delay" ? 0.8 : 5e3) };
  const sd = Math.log(high / low) / 2 / REACH;
  return { centre: Math.log(value), sd: parameter.from === "log" ? Math.hypot(sd, FORM_ERROR[parameter.id] ?? 0.1) : sd };
}

type Spread = { readonly fitted: number; readonly prior: number };

/** What the shapes narrow by little keeps the name of where it came from. */
const told = (parameter: FittedParameter, at: number, { fitted, prior }: Spread): FittedParameter => {
  const from = fitted < 0.6 * prior ? "log" : parameter.from;
  return parameter.scale === "log"
    ? inLog(parameter.id, Math.exp(at), Math.hypot(fitted, UNSURE * Math.max(0, prior - 0.6)), from)
    : onLine(parameter.id, at, fitted, from);
};
