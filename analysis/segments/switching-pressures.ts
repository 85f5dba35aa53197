import type { PumpState } from "../../shared/findings/segment";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel } from "../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../shared/record/sampling";
import type { Measured } from "../../shared/units/measured";
import { type GaugePascal, gaugePascal } from "../../shared/units/pressure";
import type { Seconds } from "../../shared/units/quantity";
import { valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { medianInterval } from "../numerics/median-interval";
import { startsOf } from "./starts";

export type SwitchingPressures = { readonly cutIn: Measured<GaugePascal> | null; readonly cutOut: Measured<GaugePascal> | null };

const AROUND = 2; // samples on either side of an instant: its own error

/**
 * Pressures at which the pump started and stopped: the lowest about each start and the highest about each stop, medians with their intervals.
 * Sampled slowly, the turn falls between samples and both lie inside the true ones. Null with fewer than two.
 */
export function switchingPressures(pump: PumpState, pressure: Channel, faults: readonly LogFault[]): SwitchingPressures {
  const values = valuesWithoutSpikes(pressure, faults);
  const ends = new Set<number>(pump.observed.map((span) => span.to));
  const stops = pump.runs.filter((run) => !ends.has(run.to)).map((run) => run.to);
  const cutIn = startsOf(pump).map((start) => extremeNear(pressure, values, start, (a, b) => a < b));
  const cutOut = stops.map((stop) => extremeNear(pressure, values, stop, (a, b) => a > b));
  return { cutIn: middle(cutIn), cutOut: middle(cutOut) };
}

function extremeNear({ sampling }: Channel, values: ArrayLike<number>, t: Seconds, better: (a: number, b: number) => boolean): number {
  const at = indexAtOrAfter(sampling, t);
  const near = 2.5 * (sampleInterval(sampling)?.median ?? 1);
  let best = Number.NaN;
  for (let i = Math.max(0, at - AROUND); i < Math.min(sampleCount(sampling), at + AROUND); i++) {
    if (Math.abs(timeAt(sampling, i) - t) <= near && (Number.isNaN(best) || better(values[i], best)) && !Number.isNaN(values[i]))
      best = values[i];
  }
  return best;
}

function middle(values: readonly number[]): Measured<GaugePascal> | null {
  const seen = values.filter((value) => !Number.isNaN(value));
  if (seen.length < 2) return null;
  const { value, low, high } = medianInterval(seen);
  return { value: gaugePascal(value), low: gaugePascal(low), high: gaugePascal(high) };
}
