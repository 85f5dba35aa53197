import type { FittedParameter } from "../../../shared/findings/what-if";
import { median, quantile, robustSpread } from "../../numerics/order-statistics";
import { demandOf } from "../demand";
import { steadyDraw } from "../draws";
import { simulateSite } from "../simulate-site";
import { speedFor } from "../sound-site";
import { inLog } from "./estimate";
import { type Frame, type ParameterValues, siteWith } from "./frame";
import { sampleAt, type Trace } from "./trace";

export type FittedSleep = { readonly flow: FittedParameter; readonly delay: FittedParameter };

const USUAL_SHARE = 0.05; // of the rated flow; common practice, no source
const USUAL_DELAY = 15; // s
const LEAST_RUNS = 8;

const SAFELY = 0.8;
const LONG_RUN = 300; // s
const STRETCH = 120; // s, longer than most sleep delays

/** The least draw that kept the pump running: over long runs the median of their lowest two-minute means. Infinity without long runs. */
function sustainedFlow(trace: Trace): number {
  const flow = trace.flow!;
  const lowest = trace.runs
    .filter((run) => run.to - run.from > LONG_RUN)
    .map((run) => {
      let least = Number.POSITIVE_INFINITY;
      for (let t: number = run.from; t + 2 * STRETCH < run.to; t += STRETCH) {
        const [from, to] = [sampleAt(trace, t), sampleAt(trace, t + STRETCH)];
        let sum = 0;
        for (let i = from; i < to; i++) sum += flow[i];
        if (to > from) least = Math.min(least, sum / (to - from));
      }
      return least;
    })
    .filter(Number.isFinite);
  return lowest.length < 3 ? Number.POSITIVE_INFINITY : median(lowest);
}

/** At which draw the drive still goes to sleep: what was drawn just before its stops, and less than what kept it running. */
export function fitSleepFlow(trace: Trace, ratedFlow: number): FittedParameter {
  const usual = inLog("sleep-flow", USUAL_SHARE * ratedFlow, 0.6, "usual");
  if (trace.flow === null || trace.meter === "before-tank") return usual;
  const drawn: number[] = [];
  for (const run of trace.runs) {
    if (!run.complete) continue;
    const [from, to] = [sampleAt(trace, run.to - 12), sampleAt(trace, run.to - 2)];
    let sum = 0;
    for (let i = from; i < to; i++) sum += trace.flow[i];
    if (to > from && sum > 0) drawn.push(sum / (to - from));
  }
  if (drawn.length < LEAST_RUNS) return usual;
  const value = Math.max(0.02 * ratedFlow, Math.min(quantile(drawn, 0.9), SAFELY * sustainedFlow(trace)));
  return inLog("sleep-flow", value, 0.25, "log");
}

/**
 * The sleep delay: from the end of the last draw to the stop pass settling, delay and boost. Settling and boost are simulated with the fitted
 * tank and loop; what is left is the delay. Where no meter shows draws end, the same from the shortest runs as a whole.
 */
export function fitSleepDelay(trace: Trace, frame: Frame, values: ParameterValues): FittedParameter {
  const usual = inLog("sleep-delay", USUAL_DELAY, 0.6, "usual");
  const runs = trace.runs.filter((run) => run.complete);
  if (frame.control === "fixed-speed" || runs.length < LEAST_RUNS) return usual;
  const closings = closingTimes(trace, values["sleep-flow"]);
  const seen =
    closings.length >= LEAST_CLOSINGS
      ? median(closings)
      : quantile(
          runs.map((run) => run.to - run.from),
          0.15,
        );
  const flow =
    closings.length >= LEAST_CLOSINGS
      ? null
      : meanFlow(
          trace,
          runs.filter((run) => Math.abs(run.to - run.from - seen) <= Math.max(2, 0.1 * seen)),
        );
  let delay = USUAL_DELAY;
  for (let turn = 0; turn < 4; turn++) {
    const site = siteWith(frame, { ...values, "sleep-delay": delay });
    const length =
      flow === null
        ? closingLength(site, 2.5 * values["sleep-flow"], values["set-pressure"])
        : runLength(site, flow, values["set-pressure"]);
    if (length === null) return usual;
    delay = Math.min(600, Math.max(0.5, delay + seen - length));
  }
  const sd = closings.length >= LEAST_CLOSINGS ? robustSpread(closings) / Math.sqrt(closings.length) : 0;
  return inLog("sleep-delay", delay, Math.max(0.1, (1 + trace.interval + sd) / Math.max(4, delay)), "log");
}

const LEAST_CLOSINGS = 5;

/** Times from the end of a run's last draw to its stop, s, for draws well above the flow at which the drive sleeps. */
function closingTimes(trace: Trace, sleepFlow: number): number[] {
  if (trace.flow === null || trace.meter === "before-tank") return [];
  const { flow, times } = trace;
  return trace.runs.flatMap((run) => {
    if (!run.complete) return [];
    const last = Math.min(times.length - 1, sampleAt(trace, run.to));
    let i = last;
    while (i > 0 && times[i] > run.from && flow[i] < 0.1 * sleepFlow) i--;
    // A steady draw before the end, so that pressure and speed were settled when the tap was shut.
    const steady =
      i > 12 && times[i] - run.from > 20 && flow[i - 2] > 1.3 * sleepFlow && Math.abs(flow[i - 8] - flow[i - 2]) < 0.2 * flow[i - 2];
    return steady && i < last ? [run.to - times[i] - trace.interval / 2] : [];
  });
}

/** Time from the end of a draw to the stop in the model, s. */
function closingLength(site: ReturnType<typeof siteWith>, flow: number, reference: number): number | null {
  const end = 90;
  const { truth } = simulateSite(site, demandOf(steadyDraw(0, end, flow), reference), 900, 1, {
    startPressure: reference,
    startSpeed: speedFor(site, reference, flow),
  });
  const run = truth.runs.find((r) => r.to > end);
  return run === undefined || run.to >= 899 ? null : run.to - end;
}

function meanFlow(trace: Trace, runs: readonly { readonly from: number; readonly to: number }[]): number {
  if (trace.flow === null || trace.meter === "before-tank") return 0;
  let [sum, n] = [0, 0];
  for (const run of runs) {
    for (let i = sampleAt(trace, run.from); i < trace.times.length && trace.times[i] <= run.to; i++) {
      if (Number.isFinite(trace.flow[i])) {
        sum += trace.flow[i];
        n++;
      }
    }
  }
  return n > 0 ? sum / n : 0;
}

/** Length of the run that follows when the pressure has fallen to the restart pressure, s; null where the pump does not stop by itself. */
function runLength(site: ReturnType<typeof siteWith>, flow: number, reference: number): number | null {
  if (site.control.kind !== "variable-speed") return null;
  const draw = Math.max(flow, 1e-6);
  const { truth } = simulateSite(site, demandOf(steadyDraw(0, 1200, draw), reference), 1200, 1, {
    startPressure: site.control.restartPressure + 500,
  });
  const run = truth.runs.find((r) => r.complete);
  return run === undefined ? null : run.to - run.from;
}
