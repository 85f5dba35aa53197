import type { Run } from "../../shared/findings/segment";
import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import type { Stretch } from "../faults/observed";

/**
 * Above `on` it runs, below `off` it rests, in between it stays as it was; instants are read where it passes `at`.
 * `rest`, for a signal of two states: its resting level. How far it then rises beyond `at` says nothing of when it did, so that it is cut off as far above
 * `at` as the resting level lies below: a step between two samples was halfway between them, a ramp is still read where it passes.
 * `none`, for a signal that rests at nothing and is ramped up from there: what still counts as nothing. A run began where the ramp, followed back from its first two
 * readings below `on`, left it, however slow it is; a quicker one is read where it passes `at`.
 */
export type Thresholds = {
  readonly on: number;
  readonly off: number;
  readonly at: number;
  readonly rest?: number;
  readonly none?: number;
};

/**
 * When a two-state channel was up, with hysteresis. An instant lies between two samples, where the straight line between them passes `at`;
 * a log on change has it exactly. A run that touches an end of its stretch is incomplete.
 * @param values shape [n]; a missing value changes nothing
 */
export function runsOf(values: ArrayLike<number>, sampling: Sampling, stretches: readonly Stretch[], thresholds: Thresholds): Run[] {
  return stretches.flatMap((stretch) => runsOfStretch(values, sampling, stretch, thresholds, 1));
}

/** When a channel lay under a limit, the same way; it leaves again a little above it. */
export function spansBelow(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretches: readonly Stretch[],
  limit: number,
  leave = limit,
): Run[] {
  return stretches.flatMap((stretch) => runsOfStretch(values, sampling, stretch, { on: -limit, off: -leave, at: -limit }, -1));
}

function runsOfStretch(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretch: Stretch,
  { on, off, at, rest, none = Number.NaN }: Thresholds,
  sign: 1 | -1,
): Run[] {
  const most = rest === undefined ? Number.POSITIVE_INFINITY : 2 * at - rest;
  const runs: Run[] = [];
  let up: boolean | null = null;
  let since: Seconds = stretch.from;
  let whole = false;
  let seen = -1; // the last sample that was not missing
  let passed: Seconds = stretch.from; // last passing of `at`
  let begun: Seconds | null = null; // where the ramp under way left nothing
  for (let i = stretch.first; i <= stretch.last; i++) {
    const value = sign * values[i];
    if (Number.isNaN(value)) continue;
    const before = seen < 0 ? Number.NaN : sign * values[seen];
    if (seen >= 0 && before < at !== value < at) passed = passing(sampling, seen, Math.min(before, most), i, Math.min(value, most), at);
    if (value <= none) begun = null;
    else if (before <= none && value < on && values[i + 1] < on) begun = footOfRamp(sampling, values, seen, i);
    if (up === null) {
      up = value >= at;
      since = stretch.from;
    } else if (!up && value >= on) {
      up = true;
      since = begun ?? passed;
      whole = true;
    } else if (up && value < off) {
      runs.push({ from: since, to: passed, complete: whole });
      up = false;
      begun = null;
    }
    seen = i;
  }
  if (up) runs.push({ from: since, to: stretch.to, complete: false });
  return runs.filter((run) => run.to > run.from);
}

/** Where a straight ramp through a sample and the one behind it left nothing: between the last sample at rest and the first above. */
function footOfRamp(sampling: Sampling, values: ArrayLike<number>, rest: number, first: number): Seconds {
  const from = timeAt(sampling, rest);
  const at = timeAt(sampling, first);
  const rise = values[first + 1] - values[first];
  if (sampling.kind === "on-change" || !(rise > 0)) return at;
  return seconds(Math.max(from, at - (values[first] * (timeAt(sampling, first + 1) - at)) / rise));
}

function passing(sampling: Sampling, i: number, a: number, j: number, b: number, at: number): Seconds {
  const to = timeAt(sampling, j);
  if (sampling.kind === "on-change") return to;
  const from = timeAt(sampling, i);
  return seconds(from + ((to - from) * (at - a)) / (b - a));
}
