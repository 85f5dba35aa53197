import { varianceInflation } from "../numerics/autocorrelation";
import { gasHeat } from "./gas-heat";
import type { Gauge, TankTrace } from "./tank-windows";

/** How much the gas of a tank warms and cools and how quickly it gives that off, and the traces as gas of one temperature would have shown them. */
export type HeatTime = {
  readonly traces: readonly TankTrace[];
  /** Time constant, s; 0 where the gas keeps its temperature. */
  readonly time: number;
  /** Excess temperature as a share of what gas alone would take; 1 with no wall that takes part at once. */
  readonly share: number;
  /** Standard deviation of the slope 1/K that not knowing the time constant leaves, as a share of it. */
  readonly doubt: number;
};

/**
 * From gas that keeps its temperature to some minutes, evenly spread in the logarithm. Slower than the rests last, a time constant cannot be told from none at
 * all with a tank 1.4 times as large. From memory: tens of seconds to some minutes.
 */
const TIMES = [0, 5, 10, 20, 40, 80, 160, 320];
/**
 * Walls, bladder and the film of water on them hold a part of the heat back at once: practice reckons with exponents from 1 to 1.4 and 1.2 in the mean
 * (air vessels in water-hammer handbooks; from memory). Gas alone, and with three quarters to a quarter of its own excess temperature.
 */
const SHARES = [1, 0.75, 0.5, 0.25];
/** Then the best is looked for between them. */
const FINER = [2 ** 0.5, 2 ** 0.25];
/** Before the log is looked at: Boyle's law as the trade reckons with it is as likely as all the rest together. */
const BOYLE = 0.5;
const LEAST_POINTS = 5;
/** What the sensor's and the meter's lags leave is alike throughout a rest: each counts as no more points than this. Our own choice. */
const EACH_REST = 3;

/**
 * The time constant and the share of heat under which 1/p of gas of one temperature goes best along with the metered volume, one slope and one leak for all rests, each with a level and a
 * shift by its flow. Weighed by what is left unexplained; the spread of the slopes that remain likely is the doubt.
 * @param ends points of each trace that count, up to the knee
 */
export function gasHeatTime(traces: readonly TankTrace[], ends: readonly number[], gauge: Gauge): HeatTime {
  const tried = TIMES.flatMap((time) => tryTime(time, traces, ends, gauge));
  if (tried[0]?.time !== 0) return { traces, time: 0, share: 1, doubt: 0 };
  for (const step of FINER) {
    const { time } = likeliest(tried).best;
    if (time > 0) tried.push(...[time / step, time * step].flatMap((finer) => tryTime(finer, traces, ends, gauge)));
  }
  const { best, likely } = likeliest(tried);
  const total = likely.reduce((a, b) => a + b, 0);
  const variance = tried.reduce((sum, { slope }, i) => sum + (slope - best.slope) ** 2 * likely[i], 0) / total;
  const { time, share } = best;
  return { traces: atOneTemperature(traces, heatOf(gauge, time), share), time, share, doubt: Math.sqrt(variance) / best.slope };
}

type Tried = Fit & { readonly time: number; readonly share: number };

function tryTime(time: number, traces: readonly TankTrace[], ends: readonly number[], gauge: Gauge): Tried[] {
  const theta = heatOf(gauge, time);
  return (time === 0 ? [1] : SHARES).flatMap((share) => {
    const fit = fitOf(atOneTemperature(traces, theta, share), ends);
    return fit === null ? [] : [{ time, share, ...fit }];
  });
}

const heatOf = ({ values, channel, atmosphere }: Gauge, time: number): Float64Array | null =>
  time === 0 ? null : gasHeat(values, channel.sampling, atmosphere, time);

function likeliest(tried: readonly Tried[]): { best: Tried; likely: readonly number[] } {
  const least = Math.min(...tried.map(({ left }) => left));
  const prior = (time: number) => (time === 0 ? BOYLE : (1 - BOYLE) / ((TIMES.length - 1) * SHARES.length));
  const likely = tried.map(({ time, left, points }) => prior(time) * (left / least) ** (-points / 2));
  return { best: tried[likely.indexOf(Math.max(...likely))], likely };
}

/** 1/p of each trace times 1 + share * theta: proportional to the volume of the gas alone. */
function atOneTemperature(traces: readonly TankTrace[], theta: Float64Array | null, share: number): readonly TankTrace[] {
  if (theta === null) return traces;
  return traces.map((trace) => ({ ...trace, inverse: trace.inverse.map((y, i) => y * (1 + share * theta[trace.samples[i]])) }));
}

/** `left` is the share of the scatter of 1/p that stays unexplained, on so many independent points. */
type Fit = { readonly slope: number; readonly left: number; readonly points: number };

/** Common slope of 1/p on volume beside a common leak; null where there is none. */
function fitOf(traces: readonly TankTrace[], ends: readonly number[]): Fit | null {
  const parts = traces.flatMap((trace, k) => {
    const n = ends[k];
    if (n < LEAST_POINTS) return [];
    const own = besideFlow(trace.flow.subarray(0, n));
    return [{ x: own(trace.drawn.subarray(0, n)), t: own(trace.times.subarray(0, n)), y: own(trace.inverse.subarray(0, n)) }];
  });
  const sum = (of: (part: (typeof parts)[number]) => number) => parts.reduce((total, part) => total + of(part), 0);
  const [xx, xt, tt] = [sum(({ x }) => product(x, x)), sum(({ x, t }) => product(x, t)), sum(({ t }) => product(t, t))];
  const [xy, ty, yy] = [sum(({ x, y }) => product(x, y)), sum(({ t, y }) => product(t, y)), sum(({ y }) => product(y, y))];
  const free = xx * tt - xt * xt;
  const leak = free > 1e-9 * xx * tt ? Math.max(0, (ty * xx - xy * xt) / free) : 0;
  const slope = (xy - leak * xt) / xx;
  if (!(slope > 0) || !(yy > 0)) return null;
  let [squares, lagged, count] = [0, 0, 0];
  for (const { x, t, y } of parts) {
    const rest = y.map((v, i) => v - slope * x[i] - leak * t[i]);
    squares += product(rest, rest);
    lagged += product(rest.subarray(1), rest);
    count += rest.length - 2;
  }
  const independent = count / varianceInflation(squares > 0 ? lagged / squares : 0, count);
  return { slope, left: squares / yy, points: Math.min(independent, EACH_REST * parts.length) };
}

const product = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, i) => sum + v * b[i], 0);

/** Takes from a column its mean and what goes along with the flow. */
function besideFlow(flow: Float64Array): (column: Float64Array) => Float64Array {
  const centred = (column: Float64Array) => {
    const mean = column.reduce((a, b) => a + b, 0) / column.length;
    return column.map((v) => v - mean);
  };
  const own = centred(flow);
  const squares = product(own, own);
  return (column) => {
    const c = centred(column);
    const share = squares > 0 ? product(c, own) / squares : 0;
    return c.map((v, i) => v - share * own[i]);
  };
}
