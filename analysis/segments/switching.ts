import type { Run } from "../../shared/findings/segment";
import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import type { Stretch } from "../faults/observed";

/**
 * Above `on` it runs, below `off` it rests, in between it stays as it was; instants are read where it passes `at`.
 * `rest`, for a signal of two states: its resting level. How far it then rises beyond `at` says nothing of when it did, so that it is cut off as far above
 * `at` as the resting level lies below: a step between two samples was halfway between them, a ramp is still read where it passes.
 */
export type Thresholds = { readonly on: number; readonly off: number; readonly at: number; readonly rest?: number };

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
  { on, off, at, rest }: Thresholds,
  sign: 1 | -1,
): Run[] {
  const most = rest === undefined ? Number.POSITIVE_INFINITY : 2 * at - rest;
  const runs: Run[] = [];
  let up: boolean | null = null;
  let since: Seconds = stretch.from;
  let whole = false;
  let seen = -1; // the last sample that was not missing
  let passed: Seconds = stretch.from; // last passing of `at`
  for (let i = stretch.first; i <= stretch.last; i++) {
    const value = sign * values[i];
    if (Number.isNaN(value)) continue;
    if (seen >= 0 && sign * values[seen] < at !== value < at)
      passed = passing(sampling, seen, Math.min(sign * values[seen], most), i, Math.min(value, most), at);
    if (up === null) {
      up = value >= at;
      since = stretch.from;
    } else if (!up && value >= on) {
      up = true;
      since = passed;
      whole = true;
    } else if (up && value < off) {
      runs.push({ from: since, to: passed, complete: whole });
      up = false;
    }
    seen = i;
  }
  if (up) runs.push({ from: since, to: stretch.to, complete: false });
  return runs.filter((run) => run.to > run.from);
}

function passing(sampling: Sampling, i: number, a: number, j: number, b: number, at: number): Seconds {
  const to = timeAt(sampling, j);
  if (sampling.kind === "on-change") return to;
  const from = timeAt(sampling, i);
  return seconds(from + ((to - from) * (at - a)) / (b - a));
}
