import type { PumpStateBasis } from "../../shared/findings/segment";
import { columnExtent } from "../numerics/column-extent";
import { quantiles } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { levelsOf, type TwoLevels } from "../numerics/two-levels";
import { valueStep } from "../numerics/value-step";
import { FOOT, leavingRest, mostlyStray, type Rest } from "./leaving-rest";
import type { Thresholds } from "./switching";

/** What a witness shows: two levels with the thresholds between them, or one. */
export type WitnessLevels =
  | { readonly kind: "two"; readonly thresholds: Thresholds; readonly separation: number; readonly share: number }
  | { readonly kind: "one"; readonly up: boolean | null };

type Witness = Exclude<PumpStateBasis, "pressure">;

/**
 * Below half of the speed that holds a pressure a pump has a quarter of the head (affinity laws) and gives nothing against that pressure:
 * such a speed is a standby, whatever the drive calls it.
 */
const STANDBY_SPEED = 0.5;
/** A drive or clamp at rest draws some per cent of what the motor draws at its least load; over this part of the running level rest is doubtful. */
const STANDBY_DRAW = 0.15;
/** Rest and run of a fixed-speed motor are two narrow heaps: then a larger base draw is believed. */
const NARROW = { separation: 10, ratio: 0.4 };

/** A motor on the line draws this part of its usual current even where it moves no water: its field alone takes a quarter to a half. Common practice, no source. */
const LEAST_CURRENT = 0.25;

/** The upper heap may be wide (a drive runs at many speeds); from the resting one it must stand off by so many of that one's spreads. */
const CLEAR_OF_REST = 4;

/** A motor started straight from the line draws its inrush for well under a second. Common practice, no source. */
const INRUSH = 1; // s

/**
 * The two levels of a witness by the shape of its distribution; one level says whether it is up, down, or cannot be told (null).
 * @param interval s between two values; 0 where that is not known
 */
export function witnessLevels(basis: Witness, values: ArrayLike<number>, interval: number): WitnessLevels {
  const { low, high } = columnExtent(values);
  if (Number.isNaN(low)) return { kind: "one", up: null };
  if (basis === "running") return flagLevels(low, high);
  const heaps = levelsOf(values);
  const brief = interval > 0 ? Math.max(1, Math.floor(INRUSH / interval)) : 1;
  const levels = pick(basis, values, heaps, high, brief);
  const fromRest = basis === "power" ? !isDamped(values, levels) : basis === "current" && levels === null;
  const leaving = fromRest ? leavingRest(values, high, restOf(values, heaps, low, high), brief) : null;
  if (leaving !== null) return leaving;
  const atZero = basis === "speed" ? restAtZero(values, high, levels === null ? high : between(basis, levels).off) : null;
  if (atZero !== null) return atZero;
  if (levels === null) {
    const [usualLow, middle] = quantiles(someValues(values), [0.01, 0.5]);
    return oneLevel(basis, usualLow, middle, high);
  }
  return { kind: "two", thresholds: between(basis, levels), separation: levels.separation, share: levels.share };
}

const NEARLY_UP = 0.9; // of the way from rest to work

/**
 * Whether a motor at one speed is read through a damped meter: rest and run are narrow heaps, and a rise slows down on its way (first order: 0.7 of a time constant up to half, 1.6 from there to
 * nine tenths). Such a reading falls to its rest long after the motor stopped; that of a drive, whose draw goes with the cube of a rising speed, rises late.
 */
function isDamped(values: ArrayLike<number>, levels: TwoLevels | null): boolean {
  if (levels === null || levels.separation <= NARROW.separation) return false;
  const [foot, half, top] = [FOOT, 0.5, NEARLY_UP].map((share) => levels.low + share * (levels.high - levels.low));
  let [left, passed, early, late] = [0, 0, 0, 0];
  let state: "rest" | "low" | "high" | "up" = "up";
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value <= foot) {
      left = i;
      state = "rest";
    } else if (state === "rest" || state === "low") {
      if (value >= half) passed = i;
      state = value >= half ? "high" : "low";
    }
    if (state === "high" && value >= top) {
      early += passed - left - 1;
      late += i - passed;
      state = "up";
    }
  }
  return late > early;
}

/** Levels farther apart, as a share of the highest, are states of the pump and no steps of a meter. */
const COARSEST = 0.05;

/** Quartiles of a heap of a few coarse steps may agree: how far it reaches down, and its step, count as well. */
function restOf(values: ArrayLike<number>, [lowest]: readonly TwoLevels[], low: number, high: number): Rest {
  const narrow = lowest !== undefined && lowest.low <= STANDBY_DRAW * high && CLEAR_OF_REST * lowest.lowSpread < lowest.high - lowest.low;
  const step = Math.min(valueStep(values), COARSEST * high);
  if (!narrow) return { level: 0, spread: step / 4 };
  return { level: lowest.low, spread: Math.max(lowest.lowSpread, (lowest.low - low) / 3, step / 4) };
}

function flagLevels(low: number, high: number): WitnessLevels {
  if (low === high) return { kind: "one", up: high > 0 };
  const at = (low + high) / 2;
  return { kind: "two", thresholds: { on: at, off: at, at }, separation: Number.POSITIVE_INFINITY, share: Number.NaN };
}

const AT_ZERO = 0.01; // of the highest speed
const MOSTLY = 0.5; // of the readings at rest or slow
const LEAST_WORKING = 0.05;
const MORE_THAN_RAMPS = 0.05; // of the working speeds: run-up and run-down alone are fewer

/**
 * A drive that shows no speed at all for most of the time under its working speeds rests there. A slow speed is then its least one, held until it sleeps or
 * reached as its loop swings, and the pump runs; the shape of the distribution would put it to the rest where rest outweighs all else. Null where it does not: the threshold `off` then swallows ramps only.
 */
function restAtZero(values: ArrayLike<number>, high: number, off: number): WitnessLevels | null {
  if (!(high > 0)) return null;
  let zeros = 0;
  let slow = 0;
  let swallowed = 0;
  let working = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value <= AT_ZERO * high) zeros++;
    else if (value <= STANDBY_SPEED * high) slow++;
    if (value > AT_ZERO * high) {
      working++;
      if (value < off) swallowed++;
    }
  }
  if (zeros === 0 || zeros < MOSTLY * (zeros + slow) || swallowed < MORE_THAN_RAMPS * working) return null;
  const speeds = new Float64Array(working);
  for (let i = 0, k = 0; i < values.length; i++) if (values[i] > AT_ZERO * high) speeds[k++] = values[i];
  const [least, first, middle, third] = quantiles(speeds, [LEAST_WORKING, 0.25, 0.5, 0.75]);
  const spread = (third - first) / 1.349;
  const levels = { lowEdge: AT_ZERO * high, highEdge: Math.min(least, STANDBY_SPEED * high) };
  const at = (share: number) => levels.lowEdge + share * (levels.highEdge - levels.lowEdge);
  return {
    kind: "two",
    thresholds: { on: at(0.5), off: at(0.25), at: at(0.35), none: levels.lowEdge },
    separation: spread > 0 ? middle / spread : Number.POSITIVE_INFINITY,
    share: working / (working + zeros),
  };
}

/**
 * Close over the rest level, so that a slow run-up or a dip in the middle of a run changes nothing. A current, a power or a flow steps; a drive's speed ramps,
 * so that how far it has risen at a sample does say when it began (starts at 2 s: rms 0.13 s so, 0.28 s as a step).
 */
function between(basis: Witness, { low, high, lowEdge, highEdge }: TwoLevels): Thresholds {
  const at = (share: number) => lowEdge + share * (highEdge - lowEdge);
  const thresholds = { on: at(0.5), off: at(0.25), at: at(0.35) };
  return basis === "speed" ? { ...thresholds, none: AT_ZERO * high } : { ...thresholds, rest: Math.min(low, lowEdge) };
}

function pick(
  basis: Exclude<Witness, "running">,
  values: ArrayLike<number>,
  levels: readonly TwoLevels[],
  top: number,
  brief: number,
): TwoLevels | null {
  const likely = levels.filter(
    (l) => l.high > 0 && l.highEdge - l.low > CLEAR_OF_REST * l.lowSpread && l.high - l.low > CLEAR_OF_REST * l.lowSpread,
  );
  const wide = (l: TwoLevels) => l.highEdge - l.lowEdge;
  if (basis === "speed") return likely.filter((l) => l.lowEdge <= STANDBY_SPEED * l.high && wide(l) > 0.05 * top).at(-1) ?? null;
  if (basis === "flow") return likely.find((l) => Math.abs(l.low) <= 0.05 * l.high) ?? null;
  const resting = likely.filter(
    (l) =>
      (l.low <= STANDBY_DRAW * l.high && l.lowEdge <= STANDBY_SPEED * l.high) ||
      (l.separation > NARROW.separation && l.low <= NARROW.ratio * l.high && wide(l) > (l.high - l.low) / 2),
  );
  // what passes above an inrush are no runs, unless all runs are so short
  const isRun = (l: TwoLevels) => !mostlyStray(values, (l.lowEdge + l.highEdge) / 2, brief);
  const unloaded = resting.filter((l) => basis === "current" && l.highEdge >= LEAST_CURRENT * l.high);
  unloaded.sort((a, b) => a.highEdge - b.highEdge);
  resting.sort((a, b) => wide(b) - wide(a));
  return unloaded.find(isRun) ?? resting.find(isRun) ?? resting[0] ?? null;
}

/** Least speed in use (share, Hz, 1/s), current (A), power (W), flow (m3/s) that must come from a running pump, and most that may pass for none. */
const ONE_LEVEL = {
  speed: { none: 0.02, some: 0.15 },
  current: { none: 0.05, some: 0.5 },
  power: { none: 5, some: 50 },
  flow: { none: 1e-6, some: 5e-5 },
} as const;

/** One heap whose lowest hundredth is still this part of its middle never went down to a rest. */
const ONE_HEAP = 0.3;

/** From memory of usual equipment: a number well over anything a resting drive or clamp shows, or well under a running motor's. */
function oneLevel(basis: Exclude<Witness, "running">, usualLow: number, middle: number, high: number): WitnessLevels {
  const { none, some } = ONE_LEVEL[basis];
  if (high <= none) return { kind: "one", up: false };
  return { kind: "one", up: middle >= some && usualLow >= ONE_HEAP * middle ? true : null };
}
