import type { PumpState } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { noiseOf } from "../../segments/pressure-noise";

/** A band of stillness wider than this share of the reading may hide a true change: a drive lets the pressure fall 5 % and more before it wakes. */
const WIDEST = 0.03;
/** From so many seconds before the first to so many after the last moment, a live pressure moves. */
const AROUND = { before: 15, after: 45 };
/** What a reading that stands still may scatter: steps, and standard deviations of its noise from lowest to highest of thousands. */
const STILL = { steps: 2.1, noises: 9 };
/** Flow that jumps by this share of the highest within this time moves the pressure of any tank and pump. */
const JUMP = { share: 0.3, within: 10 };
/** So many in a row are no chance; fewer where the pump stopped and started among them, since a rest ends at another pressure than it began. */
const IN_A_ROW = { jumps: 8, switches: 5 };

/**
 * How long pressure stood still although the pump started or stopped, or the flow jumped: s from the first to the last of several such
 * moments in a row, 0 where there are none. The reading must stand still all the way through, not only about each moment: a log of one
 * sample a minute shows little about a moment, but a live pressure does not come back to the same value for hours. Null where steps or
 * noise are too coarse, or where no such moment was logged. Noise of its own does not make a reading alive: behind ice or a choked port the
 * signal scatters and does not follow. A reading still at rest says nothing. O(n).
 * @param pump null, or one that rests on the pressure itself, where nothing else says when it switched     @param peakFlow highest flow, m3/s
 */
export function stuckWhileMoving(pressure: Channel, flow: Channel | null, pump: PumpState | null, peakFlow: number): number | null {
  if (pressure.sampling.kind === "on-change") return null;
  const usual = Math.abs(pressure.values[pressure.values.length >> 1]);
  const most = STILL.steps * leastChange(pressure.values) + STILL.noises * noiseOf(pressure.values);
  if (!(most < WIDEST * usual)) return null;
  const switches = switchesOf(pump).map((at) => ({ at, weight: IN_A_ROW.jumps / IN_A_ROW.switches }));
  const moments = [...switches, ...jumpsOf(flow, peakFlow).map((at) => ({ at, weight: 1 }))].sort((a, b) => a.at - b.at);
  return moments.length < IN_A_ROW.switches ? null : stillThrough(pressure, moments, most);
}

type Moment = { readonly at: number; readonly weight: number };

/** Total length of the rows of moments through which the reading stays within `most`. */
function stillThrough(pressure: Channel, moments: readonly Moment[], most: number): number {
  let total = 0;
  for (let first = 0; first < moments.length; ) {
    let [low, high, weight, next] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, first];
    for (; next < moments.length; next++) {
      const from = next === first ? moments[first].at - AROUND.before : moments[next - 1].at + AROUND.after;
      const seen = extremesOf(pressure, from, moments[next].at + AROUND.after, low, high);
      if (!(seen.high - seen.low <= most)) break;
      [low, high] = [seen.low, seen.high];
      weight += moments[next].weight;
    }
    if (weight >= IN_A_ROW.jumps) total += moments[next - 1].at - moments[first].at;
    first = Math.max(next, first + 1);
  }
  return total;
}

function extremesOf({ values, sampling }: Channel, from: number, to: number, low: number, high: number): { low: number; high: number } {
  for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i++) {
    if (values[i] < low) low = values[i];
    if (values[i] > high) high = values[i];
  }
  return { low, high };
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
