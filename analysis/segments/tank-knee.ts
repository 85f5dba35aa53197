import { median, quantiles } from "../numerics/order-statistics";
import type { TankTrace } from "./tank-windows";

/** What one trace is held against: 1/K (1/J), what no meter sees (1/(Pa s)) and the spread of 1/p (1/Pa). */
export type TankLine = { readonly slope: number; readonly leak: number; readonly noise: number };

/** Inverse pressure, 1/Pa, at which the tank is empty, with its reach. */
export type Knee = { readonly inverse: number; readonly low: number; readonly high: number };

const STANDS_OUT = 6; // noise spreads
const SLOPE_MAY_DIFFER = 0.2; // of the slope from window to window

/**
 * Index of the first point from which a trace stays above the gas law's line to its end, by more than noise and the slope's own doubt; the
 * count of points where it never does.
 */
export function departureOf(trace: TankTrace, line: TankLine): number {
  const left = excessOf(trace, line);
  let first = left.length;
  while (first > 1 && left[first - 1] > allowed(trace, line, first - 1)) first--;
  return first;
}

const allowed = ({ drawn }: TankTrace, { slope, noise }: TankLine, i: number) => STANDS_OUT * noise + SLOPE_MAY_DIFFER * slope * drawn[i];

/** How far each point lies above the line, 1/Pa; the line's level is that of the first half of what was drawn, where the tank surely still gives. */
function excessOf({ times, drawn, inverse }: TankTrace, { slope, leak }: TankLine): Float64Array {
  const left = new Float64Array(inverse.length);
  for (let i = 0; i < left.length; i++) left[i] = inverse[i] - slope * drawn[i] - leak * (times[i] - times[0]);
  const half = drawn[drawn.length - 1] / 2;
  let end = drawn.length;
  while (end > 3 && drawn[end - 1] > half) end--;
  const base = median(left.subarray(0, end));
  for (let i = 0; i < left.length; i++) left[i] -= base;
  return left;
}

/** Times the tank's own slope: what is left below the knee is the give of the pipes. */
const STEEPER = 4;
/** Times the tank's own slope that fast gas and a meter's delay may make of it. */
const STILL_GIVES = 2;
/** Flow may differ by so much of itself over a step: more, and friction bent the pressure. */
const STEADY = 0.3;
/** Points of flow before a step, so that a meter which lags has caught up. */
const SETTLED = 2;
const LAST_POINTS = 5;

/** Where one rest fell away from the gas law, 1/Pa, with half of what is left open; and how far it went along with it, 1/Pa. */
type Fall = { readonly knee: number | null; readonly reach: number; readonly gave: number };

/**
 * Steps of steady metered flow along one rest, each long enough to stand out of the noise: those in which pressure goes along with the gas law, and the first from
 * which it falls several times faster.
 */
function fallOf({ times, drawn, inverse, flow }: TankTrace, { slope, leak, noise }: TankLine): Fall {
  const stands = STANDS_OUT * noise;
  const rise = (from: number, to: number) => inverse[to] - inverse[from] - leak * (times[to] - times[from]);
  let gave = Number.NaN;
  let from = 0;
  for (let i = 1; i < drawn.length; i++) {
    if (!isSteady(flow, from, i)) {
      from = i;
      continue;
    }
    const expected = slope * (drawn[i] - drawn[from]);
    const seen = rise(from, i);
    if (Math.max(expected, seen) < stands) continue;
    if (seen > STEEPER * expected + stands / 2 && seen > stands) {
      // pressure just before: the last points, carried along the line
      const last = Array.from(
        { length: Math.min(LAST_POINTS, from + 1) },
        (_, k) => inverse[from - k] + slope * (drawn[from] - drawn[from - k]),
      );
      return Number.isNaN(gave) ? { knee: null, reach: 0, gave } : { knee: median(last) + expected / 2, reach: expected / 2 + noise, gave };
    }
    if (seen < STILL_GIVES * expected + stands / 2 && expected > stands / 2)
      gave = Number.isNaN(gave) ? inverse[i] - noise : Math.max(gave, inverse[i] - noise);
    from = i;
  }
  return { knee: null, reach: 0, gave };
}

/** Flow that runs on from some points before, and differs little. */
function isSteady(flow: Float64Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from - SETTLED); i <= to; i++) {
    if (!(flow[i] > 0) || Math.abs(flow[i] - flow[from]) > STEADY * flow[from]) return false;
  }
  return true;
}

const LEAST_KNEES = 2;
/** Of the rests with a knee so many may have gone on giving below it. */
const MAY_GIVE_BELOW = 0.25;

/**
 * The knee of a tank that runs empty: several rests in which pressure goes along with the gas law and then, at steady flow, falls several times faster, all from
 * about the same pressure, and hardly any in which the tank still gave below. Null where the log does not show one.
 * @param within the greatest difference between them, 1/Pa
 */
export function kneeOf(
  traces: readonly TankTrace[],
  lineOf: (trace: TankTrace) => TankLine,
  within: (inverse: number) => number,
): Knee | null {
  const falls = traces.map((trace) => fallOf(trace, lineOf(trace)));
  const knees = falls.flatMap(({ knee, reach }) => (knee === null ? [] : [{ knee, reach }]));
  if (knees.length < LEAST_KNEES) return null;
  const [low, inverse, high] = quantiles(
    knees.map(({ knee }) => knee),
    [0.1, 0.5, 0.9],
  );
  if (high - low > within(inverse)) return null;
  const below = falls.filter(({ gave }) => gave > inverse + within(inverse)).length;
  if (below > MAY_GIVE_BELOW * knees.length) return null;
  const reach = Math.max((high - low) / 2, median(knees.map((each) => each.reach)));
  return { inverse, low: inverse - reach, high: inverse + reach };
}

/** The greatest 1/p at which a trace still went along with the gas law, 1/Pa; NaN where it never clearly did. */
export const gaveUntil = (trace: TankTrace, line: TankLine): number => fallOf(trace, line).gave;
