import { median } from "../numerics/order-statistics";
import type { TankTrace } from "./tank-windows";

/** Where a trace leaves the straight line: index of the first point beyond, and 1/p on the line there with its reach, 1/Pa. */
export type Knee = { readonly index: number; readonly inverse: number; readonly reach: number };

const STEEPER = 5; // times the tank's own slope: what is left is the give of the pipes
const STANDS_OUT = 6; // noise spreads
const SLOPE_MAY_DIFFER = 0.2; // of the slope from window to window
const FLOW_ROSE = 1.3; // times the flow before: then it is the draw that bent the pressure

/** What one trace is held against: 1/K (1/J), what no meter sees (1/(Pa s)) and the spread of 1/p (1/Pa). */
export type TankLine = { readonly slope: number; readonly leak: number; readonly noise: number };

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

/**
 * The knee of one trace, where pressure falls away from the line of the gas law while water flows: there the tank is empty.
 * A flow that rises just then speaks for friction on the way to the sensor instead, and no knee is claimed.
 */
export function kneeOf(trace: TankTrace, line: TankLine): Knee | null {
  const { drawn, inverse, flow } = trace;
  const n = drawn.length;
  const first = departureOf(trace, line);
  if (first >= n || first < 3) return null;
  const left = excessOf(trace, line);
  const climb = left[n - 1] - Math.max(0, left[first - 1]);
  if (left[n - 1] < 2 * allowed(trace, line, n - 1) || climb < STEEPER * line.slope * (drawn[n - 1] - drawn[first - 1])) return null;
  const before = median(flow.subarray(Math.max(0, first - 6), first - 1));
  const after = Math.max(flow[first - 1], flow[first]);
  if (!(before > 0) || after > FLOW_ROSE * before) return null;
  const onLine = inverse[first - 1] - left[first - 1];
  const step = line.slope * (drawn[first] - drawn[first - 1]);
  return { index: first, inverse: onLine + step / 2, reach: step / 2 + line.noise };
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
