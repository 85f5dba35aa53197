import type { PumpState } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { median } from "../../numerics/order-statistics";
import { noiseOf } from "../../segments/pressure-noise";

/** A band of stillness wider than this share of the reading may hide a true change: a drive lets the pressure fall 5 % and more before it wakes. */
const WIDEST = 0.03;
/** From so many seconds before the first to so many after the last moment, a live pressure moves. */
const AROUND = { before: 15, after: 45 };
/** What a reading that stands still may scatter: steps, and standard deviations of its noise from lowest to highest of thousands. */
const STILL = { steps: 2.1, noises: 9 };
/**
 * The mean of so many readings that stand still lies within a step and a standard deviation and a half of the noise, over hundreds of such means (2 x 3.3 /
 * sqrt(20)). A live pressure does not: a draw of a third of the pump's flow moves a tank of practice size (12 s of that flow) by some hundredths of the
 * pressure before any loop has answered.
 */
const MEANS = { of: 20, least: 3, steps: 1.1, noises: 1.5 };
/** Flow that jumps by this share of the highest within this time moves the pressure of any tank and pump. */
const JUMP = { share: 0.3, within: 10 };
/**
 * So many jumps in a row at least are no chance: a good loop holds the pressure through one or the other. Jumps come in swarms, so that they are not
 * counted like dice: a row of a stuck reading is so many times as long as the longest that are left when those of some few stuck times are set aside.
 */
const JUMPS = { least: 8, times: 3, stuckTimes: 4 };
/** Of switches fewer will do: a rest ends at another pressure than it began. */
const LEAST_SWITCHES = 3;
/** A rest that holds fewer readings is hardly seen: the first stands where the run ended. */
const READINGS_IN_REST = 2;
/** How often a live reading may make such a row by chance in a log. */
const BY_CHANCE = 0.01;

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
  const usual = Math.abs(median(pressure.values));
  const [step, noise] = [leastChange(pressure.values), noiseOf(pressure.values)];
  const most = rangeOfStill(pressure);
  if (!(most < WIDEST * usual)) return null;
  const count = pressure.values.length;
  const interval = (timeAt(pressure.sampling, count - 1) - timeAt(pressure.sampling, 0)) / Math.max(1, count - 1);
  const switches = switchesOf(pump, READINGS_IN_REST * interval).map((at) => ({ at, isSwitch: true }));
  const jumps = jumpsOf(interval > JUMP.within ? null : flow, peakFlow).map((at) => ({ at, isSwitch: false }));
  const moments = [...switches, ...jumps].sort((a, b) => a.at - b.at);
  if (moments.length < LEAST_MOMENTS) return null;
  const rows = rowsOf(pressure, moments, most);
  const turn = 1 / switchesInARow(rows, switches.length);
  const jump = 1 / jumpsInARow(rows);
  const least = LEAST_READINGS * interval;
  const isNoChance = (row: Row) =>
    row.length >= least &&
    row.level > USUAL * usual &&
    row.switches * turn + jumpsOfRow(row) * jump >= 1 - 1e-9 &&
    rangeOfMeans(pressure, row) <= MEANS.steps * step + MEANS.noises * noise;
  return rows.reduce((sum, row) => sum + (isNoChance(row) ? row.length : 0), 0);
}

/** Widest range of a reading that stands still, Pa. */
export const rangeOfStill = ({ values }: Channel): number => STILL.steps * leastChange(values) + STILL.noises * noiseOf(values);

const LEAST_MOMENTS = 5; // fewer make no row that chance would not
const LEAST_READINGS = MEANS.least * MEANS.of; // from the first to the last moment: starts and stops between two readings are seen in none
/** A pump without water, or one that is asked for more than it has, holds a low pressure as still: a reading that stands is one of the usual. */
const USUAL = 0.75;

type Moment = { readonly at: number; readonly isSwitch: boolean };
/** Moments in a row through which the reading stands still, how many of them are switches, the instants of the first and the last, s, s between, and the reading, Pa. */
type Row = {
  readonly moments: number;
  readonly switches: number;
  readonly from: number;
  readonly to: number;
  readonly length: number;
  readonly level: number;
};

/**
 * How many starts and stops in a row a live reading does not stand through: with a share r of switches that it stands through as it is, a row of k
 * comes by chance about n r^k times in n switches. r is read from the log's own rows, the longest left out.
 */
function switchesInARow(rows: readonly Row[], switches: number): number {
  const longest = rows.reduce((most, row) => Math.max(most, row.switches), 0);
  const still = rows.reduce((sum, row) => sum + Math.max(0, row.switches - 1), 0) - Math.max(0, longest - 1);
  const share = Math.min(0.99, (1 + still) / (2 + switches - longest));
  return Math.max(LEAST_SWITCHES, Math.ceil(Math.log(BY_CHANCE / Math.max(1, switches)) / Math.log(share)));
}

const jumpsOfRow = ({ moments, switches }: Row) => moments - switches;

function jumpsInARow(rows: readonly Row[]): number {
  const longest = rows.map(jumpsOfRow).sort((a, b) => b - a);
  return Math.max(JUMPS.least, JUMPS.times * (longest[JUMPS.stuckTimes] ?? 0));
}

function rowsOf(pressure: Channel, moments: readonly Moment[], most: number): Row[] {
  const rows: Row[] = [];
  for (let first = 0; first < moments.length; ) {
    let [low, high, next] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, first];
    for (; next < moments.length; next++) {
      const from = next === first ? moments[first].at - AROUND.before : moments[next - 1].at + AROUND.after;
      const seen = extremesOf(pressure, from, moments[next].at + AROUND.after);
      if (!(seen.high >= seen.low)) break; // no reading there, which is no reading that stands still
      [seen.low, seen.high] = [Math.min(low, seen.low), Math.max(high, seen.high)];
      if (!(seen.high - seen.low <= most)) break;
      [low, high] = [seen.low, seen.high];
    }
    const row = moments.slice(first, next);
    if (row.length > 0) {
      const [from, to] = [moments[first].at, moments[next - 1].at];
      rows.push({
        moments: row.length,
        switches: row.filter((m) => m.isSwitch).length,
        from,
        to,
        length: to - from,
        level: (low + high) / 2,
      });
    }
    first = Math.max(next, first + 1);
  }
  return rows;
}

/** Highest less lowest mean of so many readings that follow each other, Pa. */
function rangeOfMeans({ values, sampling }: Channel, { from, to }: Row): number {
  const [first, end] = [indexAtOrAfter(sampling, from), indexAtOrAfter(sampling, to)];
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = first; i + MEANS.of <= end; i += MEANS.of) {
    let sum = 0;
    for (let k = i; k < i + MEANS.of; k++) sum += values[k];
    if (sum < low * MEANS.of) low = sum / MEANS.of;
    if (sum > high * MEANS.of) high = sum / MEANS.of;
  }
  return high - low;
}

function extremesOf({ values, sampling }: Channel, from: number, to: number): { low: number; high: number } {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
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

/** Starts and stops of complete runs, each at a rest of `least` s or more. */
function switchesOf(pump: PumpState | null, least: number): number[] {
  if (pump === null || pump.basis === "pressure") return [];
  const { runs } = pump;
  const restBefore = (i: number) => runs[i].from - (i === 0 ? 0 : runs[i - 1].to) >= least;
  return runs.flatMap((run, i) => {
    if (!run.complete) return [];
    return [...(restBefore(i) ? [run.from] : []), ...(i + 1 >= runs.length || restBefore(i + 1) ? [run.to] : [])];
  });
}

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
