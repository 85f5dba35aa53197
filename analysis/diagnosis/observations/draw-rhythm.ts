import type { Trace } from "../../model/fit/trace";
import { rhythmWithin } from "../../numerics/rhythm-within";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { traceIn } from "./at-work";
import { found, isFixedSpeed, type Looks, type Sight } from "./sight";

/** Periods looked for, s: a shorter one is a swing of the loop's kind, a longer one comes too seldom in a visit. */
const PERIODS = { shortest: 20, longest: 450 };
const GRID = 4; // s between values; a slower log keeps its own
const SLOWEST_SAMPLING = 60; // s; slower ones hold too few values of a period
const MOST_VALUES = 45_000; // two days: a rhythm that shows is there by then, and the work stays a tenth of a second
const LEAST_RECORD = 3600; // s; eight of the longest periods
/** Of the largest strength, 2: household draws by chance come to 0.1 at most on sites used for fitting, pump cycles seen in the flow to 0.3. */
const PLAIN = 0.4;
/** Falls of a switch's pressure at rest belong to draws alone. */
const PLAIN_AT_REST = 0.2;
/** A run's first seconds are the pump's own. */
const STARTING = 15;
/** A fall is read over this long, s. */
const SLOPE = 4;

/** A signal that follows what is drawn; NaN where it shows something else. Shapes [n]. `doubt`: the spread that steps and noise alone may give it. */
type Follows = {
  readonly values: ArrayLike<number>;
  readonly part: (i: number) => number;
  readonly plain: number;
  readonly doubt: number;
};
/** A spread so many times the doubt is the draw's. */
const STANDS_OUT = 2;

/** After the tank the meter shows the draw itself; elsewhere it does in a run, past its start, where a drive gives what is drawn. */
function flowOf({ flow, meter, run, runs, times }: Trace): Follows | null {
  if (flow === null) return null;
  if (meter === "after-tank") return { values: flow, part: () => 0, plain: PLAIN, doubt: 0 };
  const settled = (i: number) => run[i] >= 0 && times[i] - runs[run[i]].from > STARTING;
  return { values: flow, part: (i) => (settled(i) ? run[i] : -1), plain: PLAIN, doubt: 0 };
}

/** How fast the pressure falls at rest, Pa/s: q = K d(1/p)/dt, whatever the tank. */
function fallsAtRest({ pressure, times, run, interval }: Trace): Follows {
  const lag = Math.max(1, Math.round(SLOPE / interval));
  const rest = new Int32Array(times.length).fill(-1);
  for (let i = 0, k = 0; i < times.length; i++) {
    if (run[i] < 0) rest[i] = k;
    else if (i > 0 && run[i - 1] < 0) k++;
  }
  const values = Float64Array.from(times, (t, i) =>
    i >= lag && rest[i] >= 0 && rest[i] === rest[i - lag] ? (pressure[i] - pressure[i - lag]) / (t - times[i - lag]) : Number.NaN,
  );
  const noise = Math.hypot(noiseOf(pressure), levelStep(pressure) / Math.sqrt(12));
  return { values, part: (i) => rest[i], plain: PLAIN_AT_REST, doubt: (Math.SQRT2 * noise) / (lag * interval) };
}

function rhythmOf({ times, interval }: Trace, { values, part, doubt }: Follows): { readonly gap: number; readonly share: number } | null {
  const step = Math.max(GRID, interval);
  const n = Math.min(MOST_VALUES, Math.floor((times[times.length - 1] - times[0]) / step) + 1);
  const [sum, count, parts] = [new Float64Array(n), new Float64Array(n), new Int32Array(n).fill(-1)];
  for (let i = 0; i < times.length; i++) {
    const k = Math.floor((times[i] - times[0]) / step + 1e-6);
    if (k >= n) break;
    if (part(i) < 0 || Number.isNaN(values[i])) continue;
    sum[k] += values[i];
    count[k]++;
    parts[k] = part(i);
  }
  const grid = sum.map((s, k) => s / count[k]); // NaN where nothing lies
  if (!(spreadOf(grid) > STANDS_OUT * doubt)) return null;
  const low = Math.max(3, Math.ceil(PERIODS.shortest / step));
  const found = rhythmWithin(grid, parts, low, Math.max(low, Math.floor(PERIODS.longest / step)));
  return found === null ? null : { gap: found.lag * step, share: found.strength / 2 };
}

function spreadOf(values: Float64Array): number {
  let [count, sum, squares] = [0, 0, 0];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    count++;
    sum += value;
    squares += value * value;
  }
  return Math.sqrt(Math.max(0, squares / count - (sum / count) ** 2));
}

const followsOf = (trace: Trace, sight: Sight): Follows | null => {
  const byFlow = isFixedSpeed(sight.site) && trace.meter !== "after-tank" ? null : flowOf(trace);
  return byFlow ?? (isFixedSpeed(sight.site) ? fallsAtRest(trace) : null);
};

const ALIKE = 1.15; // periods of one swing, read in two ways

/** Whether the pressure swings at a period: then what the pump gives swings with it, whoever drives, and is not what is drawn. */
const swingsSo = (sight: Sight, gap: number): boolean =>
  (found(sight, "oscillation")?.episodes ?? []).some(({ period }) => Math.max(period.value / gap, gap / period.value) < ALIKE);

export const drawRhythmLooks: Pick<Looks, "draw-rhythm"> = {
  /**
   * Whether what is drawn comes back after the same time, by the flow, or with a switch by the falls at rest: other draws in between do not hide it, as they
   * hide it from the times between begins. With a drive and no flow the swing of the pressure is asked of by itself.
   */
  "draw-rhythm"(sight) {
    const trace = traceIn(sight);
    if (trace === null || trace.interval > SLOWEST_SAMPLING || sight.record.duration < LEAST_RECORD) return null;
    const follows = followsOf(trace, sight);
    if (follows === null) return null;
    const rhythm = rhythmOf(trace, follows);
    if (rhythm === null) return { level: "irregular", numbers: {} };
    if (trace.meter !== "after-tank" && !isFixedSpeed(sight.site) && swingsSo(sight, rhythm.gap)) return null;
    return { level: 2 * rhythm.share > follows.plain ? "regular" : "irregular", numbers: rhythm };
  },
};
