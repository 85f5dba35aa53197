import { mainChannel } from "../../../shared/record/find-channel";
import { median } from "../../numerics/order-statistics";
import { instantsOf } from "../../segments/instants";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { type Looks, pumpOf, type Sight } from "./sight";

const SLOWEST_SAMPLING = 15; // s; in longer ones water moves far from sample to sample
const LEAST_RECORD = 3600; // s; a shorter one without a jump says nothing
/** How long a reading must have stood, s and samples. */
const STOOD = { seconds: 120, samples: 20 };
/** Range of a still reading: steps, or spreads of white noise from lowest to highest of thousands. */
const STILL = { steps: 1.1, noises: 9 };
/** A jump is so many times what a still reading scatters, */
const STANDS_OUT = 1.5;
/** and stays: so many readings after it lie away from where it stood. */
const STAYS = 4;
/** A pump without water, or one that is asked for more than it has, holds a low pressure as still: a reading that stands is one of the usual. */
const USUAL = 0.75;
/** Water's own changes come in numbers: no more than so many in the log are half as large. */
const ALONE = 6;

/** Jumps at the end of a stretch in which the reading stood, Pa, with how long it had stood. O(n). */
function jumpsAfterStillness(times: Float64Array, values: ArrayLike<number>, range: number, gap: number) {
  const jumps: { readonly at: number; readonly size: number; readonly stood: number; readonly level: number }[] = [];
  let from = 0; // where the stretch began, and where it was lowest and highest
  let low = 0;
  let high = 0;
  for (let i = 1; i + STAYS <= times.length; i++) {
    const whole = times[i] - times[i - 1] <= gap;
    // false where either is missing, so that a missing value ends the stretch
    if (whole && values[i] - values[low] <= range && values[high] - values[i] <= range) {
      if (values[i] < values[low]) low = i;
      if (values[i] > values[high]) high = i;
      continue;
    }
    const stood = times[i - 1] - times[from];
    if (whole && stood >= STOOD.seconds && i - from >= STOOD.samples) {
      const middle = (values[low] + values[high]) / 2;
      let least = Number.POSITIVE_INFINITY;
      for (let k = i; k < i + STAYS; k++) least = Math.min(least, Math.abs(values[k] - middle));
      jumps.push({ at: times[i], size: least, stood, level: middle });
    }
    from = i;
    low = i;
    high = i;
  }
  return jumps;
}

/** A draw that empties the tank makes the pump start within some seconds of the jump, s; a reading that comes back does so by chance only, unless starts fill the log. */
const WITH_PUMP = { before: 2, after: 15, most: 0.2 };

/** Whether the pump started with a jump, where that says something. */
function waterMovedAt(sight: Sight, at: number): boolean {
  const pump = pumpOf(sight);
  if (pump === null || pump.basis === "pressure") return false;
  const { before, after, most } = WITH_PUMP;
  if (pump.runs.length * (before + after) > most * sight.record.duration) return false;
  return pump.runs.some(({ from }) => from >= at - before && from <= at + after);
}

export const jumpFromStillLooks: Pick<Looks, "jump-from-still"> = {
  /**
   * Whether the reading stood and then jumped, from one sample to the next, by more than water does in this log. At the tank dp/dt = q/C: a draw that
   * begins makes the pressure leave in a straight line, and the same draws move it as fast at other times. A sensor that was stuck or frozen comes back
   * to wherever the pressure is meanwhile, at any moment: a jump with the pump's start is the water's. Null where steps or noise hide it.
   */
  "jump-from-still"(sight) {
    const { record } = sight;
    const channel = mainChannel(record, "pressure");
    if (channel === null || channel.sampling.kind === "on-change" || record.duration < LEAST_RECORD) return null;
    const { values } = channel;
    const times = instantsOf(channel.sampling);
    const interval = (times[times.length - 1] - times[0]) / (times.length - 1);
    if (!(interval <= SLOWEST_SAMPLING)) return null;
    const range = STILL.steps * levelStep(values) + STILL.noises * noiseOf(values);
    const usual = USUAL * median(values);
    const jumps = jumpsAfterStillness(times, values, range, 3 * interval).filter(
      (j) => j.size > STANDS_OUT * range && j.level > usual && !waterMovedAt(sight, j.at),
    );
    const largest = jumps.reduce((most, jump) => (jump.size > most.size ? jump : most), { at: 0, size: 0, stood: 0 });
    let alike = 0;
    for (let i = 1; i < values.length; i++) if (Math.abs(values[i] - values[i - 1]) > largest.size / 2) alike++;
    const seen = largest.size > 0 && alike <= ALONE;
    return { level: seen ? "seen" : "none", numbers: seen ? { size: largest.size, stood: largest.stood } : {} };
  },
};
