import type { CannotTell } from "../../shared/findings/cannot-tell";
import { isCannotTell, type PumpState, type SteadyWindow } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { cubicMetrePerSecond, seconds } from "../../shared/units/quantity";
import { changePoints, noiseVariance } from "../numerics/change-points";
import { lagOneCorrelation } from "../numerics/moments";
import { quantile } from "../numerics/order-statistics";
import { type EvenStretch, evenStretches } from "./even-stretch";
import { heldInTime } from "./held-in-time";

/** A shorter stretch shows no drift. Common practice, no source. */
const LEAST_LENGTH = 60; // s
/** Means over this time are compared: shorter swings are not a change of draw. */
const BLOCK = 5; // s
/** A change of mean below this part of the larger one leaves the draw steady: orifice flow then moves pressure losses by twice that. */
const SAME_FLOW = 0.05;
/** Below this part of the highest usual flow nothing is drawn to speak of. */
const SOME_FLOW = 0.02;
/** Time left out after the pump starts or the draw changes, while the loop settles. Common practice, no source. */
const SETTLING = 20; // s
const MOST_OF_WINDOW = 0.25;

/**
 * Stretches of steady draw: change points of the flow's block means (penalised cost; noise from the differences, its memory measured and paid
 * for), neighbours of nearly one flow joined, cut where the pump switches. Where no flow is logged the speed takes its place: a loop that holds
 * pressure runs at one speed while the draw is steady. O(n log n).
 * Wrong where the meter is too coarse to show that the draw changed.
 */
export function findSteadyWindows(
  record: LogRecord,
  faults: readonly LogFault[],
  pump: PumpState | CannotTell,
): readonly SteadyWindow[] | CannotTell {
  const flow = mainChannel(record, "flow");
  const channel = flow ?? mainChannel(record, "speed");
  if (channel === null) return { id: "no-flow-channel", about: "drift", detail: { missing: "flow" } };
  const held = heldInTime(channel.values, channel.sampling);
  const usual = quantile(held, 0.98);
  const most = usual > 0 ? usual : quantile(held, 1); // water flowed for less than a fiftieth of the time
  const windows = evenStretches(channel, faults, null).flatMap((stretch) => steadyParts(stretch, most));
  const basis = flow === null ? "speed" : "flow";
  return windows
    .flatMap((w) => byPump(w, pump))
    .map(
      ({ from, to, mean, pumpRunning }): SteadyWindow => ({
        from: seconds(from),
        to: seconds(to),
        basis,
        meanFlow: basis === "flow" ? cubicMetrePerSecond(mean) : null,
        pumpRunning,
      }),
    );
}

type Part = { readonly from: number; readonly to: number; readonly mean: number };

function steadyParts(stretch: EvenStretch, most: number): Part[] {
  const size = Math.max(1, Math.round(BLOCK / stretch.step));
  const means = blockMeans(stretch.values, size);
  const length = size * stretch.step;
  const runs = drawnRuns(means, SOME_FLOW * most, Math.max(2, Math.floor(LEAST_LENGTH / length)));
  const noise = Math.max(noiseVariance(joined(means, runs)), (SAME_FLOW * 0.2 * most) ** 2);
  return runs
    .flatMap((run) => joinNearly(segmentsOf(means.subarray(run.first, run.end), noise, run.first), most))
    .map(({ first, end, mean }) => ({ from: stretch.from + first * length, to: Math.min(stretch.to, stretch.from + end * length), mean }))
    .filter((p) => p.to - p.from >= LEAST_LENGTH);
}

type Run = { readonly first: number; readonly end: number };

/** Runs of blocks in which something is drawn, each at least `least` long: the idle rest of a long record costs nothing more. */
function drawnRuns(means: Float64Array, some: number, least: number): Run[] {
  const runs: Run[] = [];
  let first = -1;
  for (let b = 0; b <= means.length; b++) {
    if (b < means.length && means[b] > some) {
      if (first < 0) first = b;
    } else {
      if (first >= 0 && b - first >= least) runs.push({ first, end: b });
      first = -1;
    }
  }
  return runs;
}

function joined(means: Float64Array, runs: readonly Run[]): Float64Array {
  const all = new Float64Array(runs.reduce((sum, r) => sum + r.end - r.first, 0));
  let at = 0;
  for (const { first, end } of runs) {
    all.set(means.subarray(first, end), at);
    at += end - first;
  }
  return all;
}

function blockMeans(values: ArrayLike<number>, size: number): Float64Array {
  const means = new Float64Array(Math.floor(values.length / size));
  for (let b = 0; b < means.length; b++) {
    let sum = 0;
    for (let i = b * size; i < (b + 1) * size; i++) sum += values[i];
    means[b] = sum / size;
  }
  return means;
}

type Segment = { readonly first: number; readonly end: number; readonly mean: number };

/** Change points with independent noise first, then again with the variance that the residuals' memory calls for. Blocks count from `origin`. */
function segmentsOf(means: Float64Array, noise: number, origin: number): Segment[] {
  const penalty = 3 * Math.log(means.length);
  const once = cut(means, changePoints(means, noise, penalty), 0);
  const rest = new Float64Array(means.length);
  for (const s of once) for (let i = s.first; i < s.end; i++) rest[i] = means[i] - s.mean;
  const memory = Math.min(0.9, Math.max(0, lagOneCorrelation(rest) || 0));
  return cut(means, changePoints(means, (noise * (1 + memory)) / (1 - memory), penalty), origin);
}

function cut(means: Float64Array, points: readonly number[], origin: number): Segment[] {
  const edges = [0, ...points, means.length];
  return edges.slice(1).map((end, k) => ({ first: origin + edges[k], end: origin + end, mean: meanOf(means, edges[k], end) }));
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += values[i];
  return sum / (to - from);
}

/** Neighbours whose means hardly differ become one; compared with the whole so far, so that a slow slide does not join end to end. */
function joinNearly(segments: readonly Segment[], most: number): Segment[] {
  const whole: Segment[] = [];
  for (const s of segments) {
    const last = whole[whole.length - 1];
    if (last !== undefined && Math.abs(s.mean - last.mean) <= Math.max(SAME_FLOW * Math.max(s.mean, last.mean), 0.01 * most)) {
      const length = s.end - last.first;
      whole[whole.length - 1] = {
        first: last.first,
        end: s.end,
        mean: (last.mean * (last.end - last.first) + s.mean * (s.end - s.first)) / length,
      };
    } else whole.push(s);
  }
  return whole;
}

type PartByPump = Part & { readonly pumpRunning: boolean | null };

/** Cuts a part where the pump starts or stops, lets the loop settle, and says whether the pump ran. */
function byPump(part: Part, pump: PumpState | CannotTell): PartByPump[] {
  if (isCannotTell(pump)) return settled({ ...part, pumpRunning: null });
  if (pump.mode === "always-running") return settled({ ...part, pumpRunning: true });
  const pieces: PartByPump[] = [];
  let from = part.from;
  for (const run of pump.runs) {
    if (run.to <= part.from || run.from >= part.to) continue;
    if (run.from > from) pieces.push({ ...part, from, to: run.from, pumpRunning: false });
    pieces.push({ ...part, from: Math.max(part.from, run.from), to: Math.min(part.to, run.to), pumpRunning: true });
    from = run.to;
  }
  if (from < part.to) pieces.push({ ...part, from, to: part.to, pumpRunning: false });
  return pieces.flatMap(settled);
}

/** The part less the time in which the loop settles; nothing where too little is left. */
function settled(part: PartByPump): PartByPump[] {
  const from = part.from + Math.min(SETTLING, MOST_OF_WINDOW * (part.to - part.from));
  return part.to - from >= LEAST_LENGTH ? [{ ...part, from }] : [];
}

/** The channel that steady windows rest on, for a finding's list of channels. */
export const steadyBasisChannel = (record: LogRecord): Channel | null => mainChannel(record, "flow") ?? mainChannel(record, "speed");
