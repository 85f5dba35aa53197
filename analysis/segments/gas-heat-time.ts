import { sampleInterval } from "../faults/sample-interval";
import { median } from "../numerics/order-statistics";
import { reusedRoom } from "../numerics/reused-room";
import { runningMean } from "../numerics/running-mean";
import { GAMMA, gasHeat } from "./gas-heat";
import { levelStep, noiseOf } from "./pressure-noise";
import { LEAST_POINTS, LEVEL_AND_FLOW, restsBesideFlow, type SlopeOfRests, slopeOfRests, sumOfProducts } from "./slope-of-rests";
import type { Gauge, TankTrace } from "./tank-windows";

/** How much the gas of a tank warms and cools and how quickly it gives that off, and the traces as gas of one temperature would have shown them. */
export type HeatTime = {
  readonly traces: readonly TankTrace[];
  /** Time constant, s; 0 where the gas keeps its temperature. */
  readonly time: number;
  /** Excess temperature as a share of what gas alone would take; 1 where all that gives is gas, and no wall takes part at once. */
  readonly share: number;
  /** Standard deviation of the slope 1/K that not knowing the time constant leaves, as a share of it. */
  readonly doubt: number;
  /** All that was tried. */
  readonly tried: readonly TriedHeat[];
};

/** What one time constant and share make of the slope, against that of the best, with its likelihood; all likelihoods sum to one. */
export type TriedHeat = { readonly time: number; readonly share: number; readonly slope: number; readonly likely: number };

/**
 * From gas that keeps its temperature to some minutes, evenly spread in the logarithm. Slower than the rests last, a time constant cannot be told from none at
 * all with a tank 1.4 times as large. From memory: tens of seconds to some minutes.
 */
const TIMES = [0, ...Array.from({ length: 16 }, (_, i) => 8 * 2 ** (i / 3))];
/**
 * Pipes show no heat, and walls, bladder and the film of water on them hold a part of it back at once: practice reckons with exponents from 1 to 1.4 and 1.2 in
 * the mean (air vessels in water-hammer handbooks; from memory). Gas alone, and down to a quarter of its own excess temperature.
 */
const SHARES = [1, 0.875, 0.75, 0.625, 0.5, 0.375, 0.25];
/** Before the log is looked at. */
const PRIOR = {
  /** Boyle's law as the trade reckons with it. */
  boyle: 0.05,
  /**
   * m c / (h A): air at 4 bar (5 kg/m3, 718 J/(kg K)) in a vessel of 60 L (K = 25 kJ, V/A = 0.08 m) that loses heat by free convection, some 8 W/(m2 K), takes 36 s;
   * V/A goes with the cube root of the size. By a factor of 2.5 more or less.
   */
  time: 36,
  constant: 25_000,
  factor: 2.5,
  /** What walls take at once: air at 5 bar conducts heat sqrt(pi a t) = 1 cm deep within 10 s (a = 4.4e-6 m2/s), a sixth to a tenth of V/A each way. */
  walls: 0.25,
};
/** What the sensor's and the meter's lags leave is alike throughout a rest: each counts as no more points than this. Our own choice. */
const EACH_REST = 3;
/**
 * What lags, pipes and walls leave unexplained is alike in all rests too: for the doubt they count together as no more points than this, so that many rests make no
 * time constant surer than a few. Our own choice.
 */
const AT_MOST = 12;

/**
 * The time constant and the share of heat under which 1/p of gas of one temperature goes best along with the metered volume, one slope and one leak for all rests, each with a level and a
 * shift by its flow. Weighed by what is left unexplained; the spread of the slopes that remain likely is the doubt.
 * @param ends points of each trace that count, up to the knee   @param empty Pa gauge under which the tank is empty
 */
export function gasHeatTime(traces: readonly TankTrace[], ends: readonly number[], gauge: Gauge, pipes: number, empty?: number): HeatTime {
  const heat = gasHeat(gauge.values, gauge.channel.sampling, gauge.atmosphere, empty);
  const rests = restsBesideFlow(traces, ends);
  const cold = rests.held(({ inverse }) => inverse);
  const step = sampleInterval(gauge.channel.sampling)?.median ?? 0;
  const noise = noiseIn(traces, ends, gauge);
  const floor = (noise.white + noise.steps) / cold.own;
  const averagedOver = (time: number) => (step > 0 && noise.white > NOISY * cold.own ? Math.floor((STILL * time) / step) : 0);
  let columns: readonly Float64Array[] | undefined;
  const tryTime = (time: number): Tried[] => {
    const half = averagedOver(time);
    const theta = runningMean(heat(time), half);
    const warm = rests.held((trace, n) => warmthOf(trace, theta, n), columns);
    columns = warm.columns;
    const both = sumOfProducts(cold.columns, warm.columns);
    return (time === 0 ? [1] : SHARES).flatMap((share) => {
      const fit = slopeOfRests(rests, cold, warm, both, share, EACH_REST);
      if (fit === null) return [];
      const ofNoise = noise.white * noiseGain(time, share, step, half) + noise.steps;
      return [{ time, share, ...fit, left: floor + Math.max(0, fit.left - ofNoise / fit.scatter) }];
    });
  };
  const tried = TIMES.flatMap(tryTime);
  if (tried[0]?.time !== 0) return { traces, time: 0, share: 1, doubt: 0, tried: [{ time: 0, share: 1, slope: 1, likely: 1 }] };
  const prior = priorFor(pipes, 1 / tried[0].slope);
  const { best } = likeliest(tried, prior);
  const { likely } = likeliest(tried, prior, AT_MOST);
  const total = likely.reduce((a, b) => a + b, 0);
  const variance = tried.reduce((sum, { slope }, i) => sum + (slope - best.slope) ** 2 * likely[i], 0) / total;
  const { time, share } = best;
  const doubt = Math.sqrt(variance) / best.slope;
  const seen = tried.map((each, i) => ({ time: each.time, share: each.share, slope: each.slope / best.slope, likely: likely[i] / total }));
  return {
    traces: time === 0 ? traces : atOneTemperature(traces, runningMean(heat(time), averagedOver(time)), share),
    time,
    share,
    doubt,
    tried: seen,
  };
}

/** Share of the time constant over which the heat is averaged to either side: it hardly changes within, and the sensor's noise in it goes. Our own choice. */
const STILL = 1 / 8;
/** Only where noise is so much of what is seen. */
const NOISY = 0.01;

/** Sums of squares that the sensor's noise and the steps of its channel make in 1/p over all points, 1/Pa2. */
function noiseIn(
  traces: readonly TankTrace[],
  ends: readonly number[],
  { values }: Gauge,
): { readonly white: number; readonly steps: number } {
  const unit = traces.reduce(
    (sum, { inverse }, k) => sum + (ends[k] < LEAST_POINTS ? 0 : ends[k] - LEVEL_AND_FLOW) * median(inverse) ** 4,
    0,
  );
  return { white: unit * noiseOf(values) ** 2, steps: (unit * levelStep(values) ** 2) / 12 };
}

/**
 * What 1/p (1 + share theta) keeps of the sensor's white noise, as a share of its variance: noise counts as a squeeze that warms, by (gamma - 1)/gamma of itself,
 * and lets the residuals of a noisy log look better than they are. From the filter of `gasHeat`, averaged over 2 half + 1 samples.
 */
function noiseGain(time: number, share: number, step: number, half: number): number {
  if (time === 0) return 1;
  const warmed = share * (1 - 1 / GAMMA) * Math.exp(-step / (2 * GAMMA * time));
  const over = 2 * half + 1;
  return 1 - (2 * warmed) / over + warmed ** 2 / over;
}

type Tried = SlopeOfRests & { readonly time: number; readonly share: number };

const room = reusedRoom();

/** The first n points of 1/p times the excess temperature; the array is used again by the next call. */
function warmthOf({ inverse, samples }: TankTrace, theta: Float64Array, n: number): Float64Array {
  const warmth = room(n);
  for (let i = 0; i < n; i++) warmth[i] = inverse[i] * theta[samples[i]];
  return warmth;
}

const usual = (time: number, share: number, typical: number, least: number) =>
  Math.exp(-0.5 * (Math.log(time / typical) / Math.log(PRIOR.factor)) ** 2) * Math.min(1, (share / least) ** SELDOM);
const SELDOM = 4; // power by which smaller shares are less likely

/** @param pipes the greatest part of what gives that is not gas   @param constant K, J */
function priorFor(pipes: number, constant: number): (time: number, share: number) => number {
  const least = (1 - pipes) * (1 - PRIOR.walls);
  const typical = PRIOR.time * Math.cbrt(constant / PRIOR.constant);
  const all = TIMES.slice(1).reduce((sum, time) => sum + SHARES.reduce((of, share) => of + usual(time, share, typical, least), 0), 0);
  return (time, share) => (time === 0 ? PRIOR.boyle : ((1 - PRIOR.boyle) * usual(time, share, typical, least)) / all);
}

/** Boyle's law against all the rest together, then the best of these. @param most points that all rests together count as */
function likeliest(
  tried: readonly Tried[],
  priorOf: (time: number, share: number) => number,
  most = Number.POSITIVE_INFINITY,
): { best: Tried; likely: readonly number[] } {
  const least = Math.min(...tried.map(({ left }) => left));
  const likely = tried.map(({ time, share, left, points }) => priorOf(time, share) * (left / least) ** (-Math.min(points, most) / 2));
  const ofBoyle = likely.reduce((sum, each, i) => sum + (tried[i].time === 0 ? each : -each), 0) >= 0;
  const standing = likely.map((each, i) => ((tried[i].time === 0) === ofBoyle ? each : -1));
  return { best: tried[standing.indexOf(Math.max(...standing))], likely };
}

/** 1/p of each trace times 1 + share * theta: proportional to the volume of the gas alone. */
const atOneTemperature = (traces: readonly TankTrace[], theta: Float64Array, share: number): readonly TankTrace[] =>
  traces.map((trace) => ({ ...trace, inverse: trace.inverse.map((y, i) => y * (1 + share * theta[trace.samples[i]])) }));
