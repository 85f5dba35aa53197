import { reusedRoom } from "../numerics/reused-room";
import { gasHeat } from "./gas-heat";
import { restsBesideFlow, type SlopeOfRests, slopeOfRests, sumOfProducts } from "./slope-of-rests";
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
const FINER_SHARE = 0.125;
const FINER = [2 ** 0.5, 2 ** 0.25];
/** Before the log is looked at: Boyle's law as the trade reckons with it is as likely as all the rest together. */
const BOYLE = 0.5;
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
 * @param ends points of each trace that count, up to the knee
 */
export function gasHeatTime(traces: readonly TankTrace[], ends: readonly number[], gauge: Gauge): HeatTime {
  const heat = gasHeat(gauge.values, gauge.channel.sampling, gauge.atmosphere);
  const rests = restsBesideFlow(traces, ends);
  const cold = rests.held(({ inverse }) => inverse);
  let columns: readonly Float64Array[] | undefined;
  const tryTime = (time: number, shares: readonly number[] = time === 0 ? [1] : SHARES): Tried[] => {
    const theta = heat(time);
    const warm = rests.held((trace, n) => warmthOf(trace, theta, n), columns);
    columns = warm.columns;
    const both = sumOfProducts(cold.columns, warm.columns);
    return shares.flatMap((share) => {
      const fit = slopeOfRests(rests, cold, warm, both, share, EACH_REST);
      return fit === null ? [] : [{ time, share, ...fit }];
    });
  };
  const tried = TIMES.flatMap((time) => tryTime(time));
  if (tried[0]?.time !== 0) return { traces, time: 0, share: 1, doubt: 0 };
  for (const step of FINER) {
    const { time } = likeliest(tried).best;
    if (time > 0) tried.push(...[time / step, time * step].flatMap((finer) => tryTime(finer)));
  }
  const { time: usual, share: near } = likeliest(tried).best;
  if (usual > 0)
    tried.push(
      ...tryTime(
        usual,
        [near - FINER_SHARE, near + FINER_SHARE].filter((share) => share < 1),
      ),
    ); // no gas warms more than gas alone
  const { best } = likeliest(tried);
  const { likely } = likeliest(tried, AT_MOST);
  const total = likely.reduce((a, b) => a + b, 0);
  const variance = tried.reduce((sum, { slope }, i) => sum + (slope - best.slope) ** 2 * likely[i], 0) / total;
  const { time, share } = best;
  const doubt = Math.sqrt(variance) / best.slope;
  return { traces: time === 0 ? traces : atOneTemperature(traces, heat(time), share), time, share, doubt };
}

type Tried = SlopeOfRests & { readonly time: number; readonly share: number };

const room = reusedRoom();

/** The first n points of 1/p times the excess temperature; the array is used again by the next call. */
function warmthOf({ inverse, samples }: TankTrace, theta: Float64Array, n: number): Float64Array {
  const warmth = room(n);
  for (let i = 0; i < n; i++) warmth[i] = inverse[i] * theta[samples[i]];
  return warmth;
}

/** @param most points that all rests together count as */
function likeliest(tried: readonly Tried[], most = Number.POSITIVE_INFINITY): { best: Tried; likely: readonly number[] } {
  const least = Math.min(...tried.map(({ left }) => left));
  const prior = (time: number) => (time === 0 ? BOYLE : (1 - BOYLE) / ((TIMES.length - 1) * SHARES.length));
  const likely = tried.map(({ time, left, points }) => prior(time) * (left / least) ** (-Math.min(points, most) / 2));
  return { best: tried[likely.indexOf(Math.max(...likely))], likely };
}

/** 1/p of each trace times 1 + share * theta: proportional to the volume of the gas alone. */
const atOneTemperature = (traces: readonly TankTrace[], theta: Float64Array, share: number): readonly TankTrace[] =>
  traces.map((trace) => ({ ...trace, inverse: trace.inverse.map((y, i) => y * (1 + share * theta[trace.samples[i]])) }));
