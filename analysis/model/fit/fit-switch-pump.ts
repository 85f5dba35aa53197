import type { FittedParameter } from "../../../shared/findings/what-if";
import { clusteredRegression } from "../../numerics/clustered-regression";
import { inLog, widened } from "./estimate";
import { sampleAt, type Trace } from "./trace";

type Curve = { readonly shutoff: FittedParameter; readonly steepness: FittedParameter };

const STRETCH = 8; // s: long enough that a noisy pressure still tells the tank's share
const AFTER_START = 4; // s, motor and water under way
const BEFORE_STOP = 2; // s
const LEAST_STRETCHES = 12;
const LARGEST_SD = 0.2; // of the logarithm; above it pressure hardly moved the flow
const FORM_ERROR = 0.03; // of the logarithm: no curve is an exact parabola
const ABOVE_STOP = 1.03; // a pump that reached its cut-out holds at least a little more without flow

/**
 * The curve of a pump that always turns at full speed: what it gives is what the meter shows and what the tank takes up, K (1/p1 - 1/p2)
 * (Boyle), over stretches of its runs; Q^2 = (H0 - p)/r regressed on p, with runs as clusters. With the meter before the tank it alone tells.
 * @param constant gas constant K of the tank, J
 * @returns null where flow is not logged, or the runs do not tell
 */
export function fitSwitchPump(trace: Trace, constant: number, atmosphere: number): Curve | null {
  const { square, pressure, run } = stretchesOf(trace, constant, atmosphere);
  if (square.length < LEAST_STRETCHES) return null;
  const fit = clusteredRegression([new Float64Array(square.length).fill(1), Float64Array.from(pressure)], Float64Array.from(square), run);
  if (fit === null) return null;
  const [level, slope] = fit.coefficients;
  if (!(slope < 0 && level > 0)) return null;
  const [own, both, other] = [fit.covariance[0][0] / level ** 2, fit.covariance[0][1] / (level * slope), fit.covariance[1][1] / slope ** 2];
  const shutoffSd = Math.sqrt(Math.max(0, own + other - 2 * both)); // of log(level / slope)
  const steepnessSd = Math.sqrt(other);
  if (!(shutoffSd < LARGEST_SD && steepnessSd < 2 * LARGEST_SD)) return null;
  return {
    shutoff: widened(inLog("shutoff", -level / slope, shutoffSd, "log", fit.reach), FORM_ERROR),
    steepness: widened(inLog("steepness", -1 / slope, steepnessSd, "log", fit.reach), 2 * FORM_ERROR),
  };
}

function stretchesOf(trace: Trace, constant: number, atmosphere: number) {
  const { times, pressure, flow, meter, runs } = trace;
  const [square, level, of]: number[][] = [[], [], []];
  if (flow === null) return { square, pressure: level, run: of };
  runs.forEach((run, r) => {
    for (let t = run.from + AFTER_START; t + STRETCH <= run.to - BEFORE_STOP; t += STRETCH) {
      const [a, b] = [sampleAt(trace, t), sampleAt(trace, t + STRETCH)];
      if (b >= times.length || b - a < 2) continue;
      let [drawn, held] = [0, 0];
      for (let i = a; i < b; i++) {
        drawn += (flow[i] + flow[i + 1]) / 2 / (b - a);
        held += (pressure[i] + pressure[i + 1]) / 2 / (b - a);
      }
      const taken = constant * (1 / (pressure[a] + atmosphere) - 1 / (pressure[b] + atmosphere));
      const pumped = drawn + (meter === "before-tank" ? 0 : taken / (times[b] - times[a]));
      if (!(pumped > 0 && Number.isFinite(held))) continue;
      square.push(pumped ** 2);
      level.push(held);
      of.push(r);
    }
  });
  return { square, pressure: level, run: of };
}

/** A usual shutoff pressure that does not lie below what the pump reached while it ran. */
export function aboveReached(shutoff: FittedParameter, trace: Trace): FittedParameter {
  let reached = 0;
  for (let i = 0; i < trace.times.length; i++) if (trace.run[i] >= 0 && trace.pressure[i] > reached) reached = trace.pressure[i];
  const least = ABOVE_STOP * reached;
  if (shutoff.low >= least) return shutoff;
  const value = Math.max(shutoff.value, 1.15 * least);
  return { ...shutoff, value, low: least, high: Math.max(shutoff.high, 1.3 * value) };
}
