import { type Random, seededRandom } from "../numerics/random";
import type { DemandEvent } from "./demand";

/** One draw without a break. */
export const steadyDraw = (from: number, to: number, flow: number): readonly DemandEvent[] => [{ from, to, flow }];

/** A draw that swings between two flows as a sine, in steps of a fortieth of its period, on top of nothing. */
export function swingingDraw(from: number, to: number, period: number, low: number, high: number): readonly DemandEvent[] {
  if (!(period > 0 && high >= low && low >= 0)) throw new RangeError(`swingingDraw: period ${period} s, ${low} to ${high} m3/s`);
  const step = period / 40;
  const count = Math.ceil((to - from) / step);
  return Array.from({ length: count }, (_, i) => ({
    from: from + i * step,
    to: Math.min(to, from + (i + 1) * step),
    flow: (low + high) / 2 + ((high - low) / 2) * Math.sin((2 * Math.PI * (i + 0.5)) / 40),
  }));
}

/** A draw that opens and shuts by the clock: a machine, a filler, an irrigation valve. */
export function pulsedDraw(from: number, to: number, period: number, open: number, flow: number): readonly DemandEvent[] {
  if (!(period > 0 && open > 0 && open <= period)) throw new RangeError(`pulsedDraw: open ${open} of ${period} s`);
  const count = Math.ceil((to - from) / period);
  return Array.from({ length: count }, (_, i) => ({ from: from + i * period, to: Math.min(to, from + i * period + open), flow }));
}

/** A kind of use: share of all draws, flow and length with their spread (standard deviation of the logarithm). */
type Use = {
  readonly share: number;
  readonly flow: number;
  readonly flowSpread: number;
  readonly length: number;
  readonly lengthSpread: number;
};

/** Invented but plausible figures, common practice without a source: tap, toilet, shower, washing machine, garden hose. m3/s and s. */
const USES: readonly Use[] = [
  { share: 0.5, flow: 6e-5, flowSpread: 0.4, length: 25, lengthSpread: 0.8 },
  { share: 0.25, flow: 1.1e-4, flowSpread: 0.15, length: 60, lengthSpread: 0.2 },
  { share: 0.13, flow: 1.5e-4, flowSpread: 0.2, length: 380, lengthSpread: 0.4 },
  { share: 0.09, flow: 1.4e-4, flowSpread: 0.15, length: 110, lengthSpread: 0.3 },
  { share: 0.03, flow: 2.2e-4, flowSpread: 0.2, length: 900, lengthSpread: 0.6 },
];

const SHARES_UP_TO: readonly number[] = USES.map((_, i) => USES.slice(0, i + 1).reduce((sum, use) => sum + use.share, 0));

/** How use spreads over the hours of a day, 0 to 23, mean 1: quiet at night, peaks at breakfast and in the evening. Common practice. */
const HOURS: readonly number[] = [
  0.15, 0.08, 0.06, 0.06, 0.1, 0.45, 1.5, 2.3, 1.9, 1.3, 1.0, 0.95, 1.1, 1.0, 0.8, 0.8, 0.95, 1.3, 1.8, 2.1, 1.8, 1.3, 0.8, 0.39,
];

/**
 * Draws of so many households by chance: a Poisson stream that follows the hours of the day, each draw of a kind of use.
 * @param homes 0 or more  @param startHour hour of the day at time 0  @param drawsPerDay of one home
 */
export function householdDraws(homes: number, duration: number, seed: number, startHour = 0, drawsPerDay = 60): readonly DemandEvent[] {
  const random = seededRandom(seed);
  const peak = (Math.max(...HOURS) * homes * drawsPerDay) / 86400;
  const events: DemandEvent[] = [];
  if (peak === 0) return events;
  let t = 0;
  for (;;) {
    t += -Math.log(1 - random.next()) / peak;
    if (t >= duration) return events;
    const hour = HOURS[Math.floor((startHour + t / 3600) % 24)];
    if (random.next() * Math.max(...HOURS) < hour) events.push(oneDraw(t, random));
  }
}

function oneDraw(from: number, random: Random): DemandEvent {
  const pick = random.next();
  const use = USES.find((_, i) => pick < SHARES_UP_TO[i]) ?? USES[0];
  return {
    from,
    to: from + use.length * Math.exp(use.lengthSpread * random.normal()),
    flow: use.flow * Math.exp(use.flowSpread * random.normal()),
  };
}
