import type { Trace } from "../../model/fit/trace";
import { quantile, quantileInPlace } from "../../numerics/order-statistics";
import { levelStep } from "../../segments/pressure-noise";
import { traceIn } from "./at-work";
import { cutOutOf, found, isFixedSpeed, type Looks, setPressureOf } from "./sight";

const BLOCK = 12; // samples
const SETTLED = 15; // s after a start
const LEAST_BLOCKS = 8; // fewer have no usual scatter
/** Scatter of the roughest runs over that at rest, and over what steps of the reading make by themselves. */
const ROUGHER = 3;
/** Of the pressure held: less disturbs nobody, a tenth of a psi in sixty. With samples farther apart than a motor's answer the loop's own errors come to twice that. */
const LEAST_SHARE = { close: 0.0015, apart: 0.003 };
const CLOSE = 2.2; // s between samples: about what a motor takes to answer
/**
 * A sound loop mends an error within so many s: readings farther apart differ by the errors that draws leave, which is not scatter. There it must be as high as
 * a swing that matters.
 */
const MENDED = 8;

/** Bends of one block, used again by the next. */
const bends = new Float64Array(BLOCK - 2);

/** Spread of what changes from sample to sample in a block: second differences, sqrt(6) times white noise; by their median, so that one bend counts for nothing. */
function scatterOf(pressure: ArrayLike<number>, from: number): number {
  let known = 0;
  for (let i = from; i < from + bends.length; i++) {
    const bend = Math.abs(pressure[i] - 2 * pressure[i + 1] + pressure[i + 2]);
    if (bend - bend === 0) bends[known++] = bend;
  }
  return quantileInPlace(bends, 0.5, known) / (0.6745 * Math.sqrt(6));
}

/** Scatter of the rougher rests, and of the roughest tenth of the running time: eddies go with the square of the flow, and most of the time little flows. */
export function scatters(trace: Trace): { readonly rest: number; readonly run: number } | null {
  const { times, run, runs, pressure } = trace;
  const [atRest, running]: [number[], number[]] = [[], []];
  for (let i = 0; i + BLOCK <= times.length; i += BLOCK) {
    const same = run[i] === run[i + BLOCK - 1] && times[i + BLOCK - 1] - times[i] < 2 * BLOCK * trace.interval;
    if (!same) continue;
    const scatter = scatterOf(pressure, i);
    if (Number.isNaN(scatter)) continue;
    if (run[i] < 0) atRest.push(scatter);
    else if (times[i] - runs[run[i]].from > SETTLED) running.push(scatter);
  }
  if (running.length < LEAST_BLOCKS || atRest.length < LEAST_BLOCKS) return null;
  return { rest: quantile(atRest, 0.75), run: quantile(running, 0.9) };
}

export const roughnessLooks: Pick<Looks, "roughness"> = {
  /**
   * Turbulence is there only while water passes, and at rest the same sensor is quiet: so rest against run tells it without a meter. Noise
   * of the sensor or the wires is there at all times. A swing that was found is asked of by itself: its samples scatter too, and are no second witness.
   */
  roughness(sight) {
    const trace = traceIn(sight);
    const held = isFixedSpeed(sight.site) ? cutOutOf(sight) : setPressureOf(sight);
    const swings = found(sight, "oscillation")?.episodes.some((e) => e.drivenBy !== "cycling") ?? false;
    if (trace === null || held === null || !(held > 0) || swings) return null;
    const seen = scatters(trace);
    if (seen === null) return null;
    const floor = Math.max(seen.rest, levelStep(trace.pressure) / Math.sqrt(12));
    const swing = sight.site.limits.oscillationPeakToPeak.value / (2 * Math.SQRT2); // of a sine: its spread
    const share = (trace.interval > CLOSE ? LEAST_SHARE.apart : LEAST_SHARE.close) * held;
    const least = trace.interval > MENDED ? Math.max(swing, share) : share;
    const rougher = seen.run > ROUGHER * floor && seen.run > least;
    return { level: rougher ? "rougher" : "alike", numbers: { run: seen.run, rest: seen.rest, floor, share: seen.run / held } };
  },
};
