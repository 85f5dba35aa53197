import { varianceInflation } from "../numerics/autocorrelation";
import type { TankTrace } from "./tank-windows";

export const LEAST_POINTS = 5;
/** What each rest has of its own, so many points less that tell. */
export const LEVEL_AND_FLOW = 2;

/** A rest's drawn volume and time, beside its flow. Shapes [n]. */
type Rest = { readonly x: Float64Array; readonly t: Float64Array };

/** Rests of the pump with what is the same whatever is held against their volume and time. */
export type RestsBesideFlow = {
  readonly rests: readonly Rest[];
  /** Sums of products over all rests. */
  readonly xx: number;
  readonly xt: number;
  readonly tt: number;
  /**
   * A column of each rest, beside its flow, from its first n points (more are passed over); what `of` gives may be changed by its next call.
   * @param into columns of an earlier answer that is done with: they are written anew, since fresh memory costs more than the sums
   */
  readonly held: (of: (trace: TankTrace, n: number) => Float64Array, into?: readonly Float64Array[]) => HeldAgainst;
};

/** A column of each rest, beside its flow, with the sums of its products with volume, time and itself. */
type HeldAgainst = { readonly columns: readonly Float64Array[]; readonly x: number; readonly t: number; readonly own: number };

/** Each column less its mean and what goes along with the flow, up to the end given for each trace; rests with fewer than five points are left out. */
export function restsBesideFlow(traces: readonly TankTrace[], ends: readonly number[]): RestsBesideFlow {
  const kept = traces
    .map((trace, k) => ({ trace, n: ends[k] }))
    .filter(({ n }) => n >= LEAST_POINTS)
    .map(({ trace, n }) => ({ trace, n, own: besideFlow(trace.flow.subarray(0, n)) }));
  const columnsOf = (of: (trace: TankTrace, n: number) => Float64Array, into?: readonly Float64Array[]) =>
    kept.map(({ trace, n, own }, k) => own(of(trace, n).subarray(0, n), into?.[k] ?? new Float64Array(n)));
  const [drawn, times] = [columnsOf((trace) => trace.drawn), columnsOf((trace) => trace.times)];
  const held: RestsBesideFlow["held"] = (of, into) => {
    const columns = columnsOf(of, into);
    return { columns, x: sumOfProducts(drawn, columns), t: sumOfProducts(times, columns), own: sumOfProducts(columns, columns) };
  };
  const rests = drawn.map((x, k) => ({ x, t: times[k] }));
  return { rests, xx: sumOfProducts(drawn, drawn), xt: sumOfProducts(drawn, times), tt: sumOfProducts(times, times), held };
}

/** `left` is the share of the scatter (a sum of squares) that stays unexplained, on so many independent points. */
export type SlopeOfRests = { readonly slope: number; readonly left: number; readonly scatter: number; readonly points: number };

/**
 * Slope on volume that is common to all rests, beside a common slope over time (a leak) that is never below 0, of `cold` and a share of `warm`.
 * @param both sum of the products of cold and warm   @param most points that a rest counts as, since what lags leave is alike throughout it
 * @returns null where there is none
 */
export function slopeOfRests(
  { rests, xx, xt, tt }: RestsBesideFlow,
  cold: HeldAgainst,
  warm: HeldAgainst,
  both: number,
  share: number,
  most: number,
): SlopeOfRests | null {
  const xy = cold.x + share * warm.x;
  const ty = cold.t + share * warm.t;
  const yy = cold.own + 2 * share * both + share ** 2 * warm.own;
  const free = xx * tt - xt * xt;
  const leak = free > 1e-9 * xx * tt ? Math.max(0, (ty * xx - xy * xt) / free) : 0;
  const slope = (xy - leak * xt) / xx;
  if (!(slope > 0) || !(yy > 0)) return null;
  let [squares, lagged, count] = [0, 0, 0];
  rests.forEach((rest, k) => {
    const scatter = scatterAbout(rest, cold.columns[k], warm.columns[k], share, slope, leak);
    squares += scatter.squares;
    lagged += scatter.lagged;
    count += rest.x.length - LEVEL_AND_FLOW;
  });
  const independent = count / varianceInflation(squares > 0 ? lagged / squares : 0, count);
  return { slope, left: squares / yy, scatter: yy, points: Math.min(independent, most * rests.length) };
}

/** Sums of squares, and of products of neighbours, of what slope and leak leave. */
function scatterAbout({ x, t }: Rest, cold: Float64Array, warm: Float64Array, share: number, slope: number, leak: number) {
  let squares = 0;
  let lagged = 0;
  let before = 0;
  for (let i = 0; i < x.length; i++) {
    const rest = cold[i] + share * warm[i] - slope * x[i] - leak * t[i];
    squares += rest * rest;
    lagged += rest * before;
    before = rest;
  }
  return { squares, lagged };
}

export const sumOfProducts = (a: readonly Float64Array[], b: readonly Float64Array[]): number =>
  a.reduce((sum, column, k) => sum + product(column, b[k]), 0);

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function centred(column: Float64Array, rest: Float64Array): Float64Array {
  let sum = 0;
  for (let i = 0; i < column.length; i++) sum += column[i];
  const mean = sum / column.length;
  for (let i = 0; i < rest.length; i++) rest[i] = column[i] - mean;
  return rest;
}

/** Takes from a column its mean and what goes along with the flow, and writes what is left. */
function besideFlow(flow: Float64Array): (column: Float64Array, into: Float64Array) => Float64Array {
  const own = centred(flow, new Float64Array(flow.length));
  const squares = product(own, own);
  return (column, into) => {
    const rest = centred(column, into);
    const share = squares > 0 ? product(rest, own) / squares : 0;
    for (let i = 0; i < rest.length; i++) rest[i] -= share * own[i];
    return rest;
  };
}
