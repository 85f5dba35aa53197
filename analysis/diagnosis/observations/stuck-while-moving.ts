import type { PumpState } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { noiseOf } from "../../segments/pressure-noise";

/** Steps of the reading coarser than this share of it may hide a true change. */
const FINE = 0.003;
/** Within so many seconds before and after, a live pressure moves. */
const AROUND = { before: 15, after: 45 };
/** What a reading that stands still may scatter: steps, and standard deviations of its noise from lowest to highest. */
const STILL = { steps: 1.5, noises: 7 };
/** Flow that jumps by this share of the highest within this time moves the pressure of any tank and pump. */
const JUMP = { share: 0.3, within: 10 };
/** So many in a row are no chance. */
const IN_A_ROW = 5;

/**
 * How long pressure stood still although the pump started or stopped, or the flow jumped: s from the first to the last of five or more such
 * moments in a row, 0 where there are none. Null where steps are too coarse, or where no such moment was logged. Noise of its own does
 * not make a reading alive: behind ice or a choked port the signal scatters and does not follow. A reading still at rest says nothing.
 * @param pump null, or one that rests on the pressure itself, where nothing else says when it switched     @param peakFlow highest flow, m3/s
 */
export function stuckWhileMoving(pressure: Channel, flow: Channel | null, pump: PumpState | null, peakFlow: number): number | null {
  const step = leastChange(pressure.values);
  const usual = Math.abs(pressure.values[pressure.values.length >> 1]);
  if (pressure.sampling.kind === "on-change" || !(step < FINE * usual)) return null;
  const moments = [...switchesOf(pump), ...jumpsOf(flow, peakFlow)].sort((a, b) => a - b);
  if (moments.length < IN_A_ROW) return null;
  const most = STILL.steps * step + STILL.noises * noiseOf(pressure.values);
  let [total, row] = [0, 0];
  for (let i = 0; i <= moments.length; i++) {
    if (i < moments.length && !moves(pressure, moments[i], most)) row++;
    else {
      if (row >= IN_A_ROW) total += moments[i - 1] - moments[i - row];
      row = 0;
    }
  }
  return total;
}

/** The step of the readings: the least change between two that follow each other; infinite where they never change. */
function leastChange(values: ArrayLike<number>): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < values.length; i++) {
    const change = Math.abs(values[i] - values[i - 1]);
    if (change > 0 && change < least) least = change;
  }
  return least;
}

const switchesOf = (pump: PumpState | null): number[] =>
  pump === null || pump.basis === "pressure" ? [] : pump.runs.filter((run) => run.complete).flatMap((run) => [run.from, run.to]);

/** Moments of a jump, at most one each time it jumps. */
function jumpsOf(flow: Channel | null, peak: number): number[] {
  if (flow === null || !(peak > 0)) return [];
  const { values, sampling } = flow;
  const jumps: number[] = [];
  for (let i = 0, last = 0; i < sampleCount(sampling); i++) {
    while (timeAt(sampling, i) - timeAt(sampling, last) > JUMP.within) last++;
    if (Math.abs(values[i] - values[last]) < JUMP.share * peak) continue;
    jumps.push(timeAt(sampling, i));
    last = i;
  }
  return jumps;
}

/** Whether pressure spans more than `most` about a moment; a moment without samples counts as one that moved. */
function moves({ values, sampling }: Channel, moment: number, most: number): boolean {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = indexAtOrAfter(sampling, moment - AROUND.before); i < values.length && timeAt(sampling, i) <= moment + AROUND.after; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return !(high - low <= most);
}
