import { type Random, seededRandom } from "../numerics/random";
import type { PlantState } from "./plant";
import { loggedReading } from "./sensor";
import type { LoggedChannel, SiteModel } from "./site-model";
import { within } from "./site-model";

/** Samples as a logger keeps them: shape [n] each, SI. */
export type Samples = {
  readonly count: number;
  readonly times: Float64Array;
  readonly columns: ReadonlyMap<LoggedChannel, Float32Array>;
  /** No jitter, no missing row: times are start + i * interval. */
  readonly even: boolean;
};

export type Logger = {
  /** When the next sample is due, s. */
  due(): number;
  sample(state: PlantState, reading: number, running: boolean): void;
  finish(): Samples;
};

const IDLE_SHARE = 0.35; // of rated current that a motor draws unloaded; common practice, no source

/** Takes a sample each interval, with jitter, lost rows, noise and steps. Chance comes from its own stream, so that the physics do not move it. */
export function makeLogger(site: SiteModel, duration: number, seed: number): Logger {
  const { logger } = site;
  const random = seededRandom(seed);
  const most = Math.floor(duration / logger.interval + 1e-9) + 1;
  const times = new Float64Array(most);
  const columns = new Map(logger.channels.map((channel) => [channel, new Float32Array(most)] as const));
  const pairs = [...columns];
  let slot = 0;
  let count = 0;
  let lost = false;
  const instant = () => {
    const at = slot * logger.interval + (logger.jitter > 0 ? logger.jitter * random.normal() : 0);
    const least = count > 0 ? times[count - 1] + 0.05 * logger.interval : 0;
    return Math.max(at, least);
  };
  let next = instant();
  return {
    due: () => (slot < most ? next : Number.POSITIVE_INFINITY),
    sample: (state, reading, running) => {
      const dropped = (logger.missing > 0 && random.next() < logger.missing) || (logger.gaps.length > 0 && within(logger.gaps, next));
      if (dropped) lost = true;
      else {
        times[count] = next;
        for (const [channel, values] of pairs) values[count] = channelValue(channel, site, state, reading, running, next, random);
        count++;
      }
      slot++;
      next = instant();
    },
    finish: () => ({
      count,
      times: times.subarray(0, count),
      columns: new Map(pairs.map(([channel, values]) => [channel, values.subarray(0, count)])),
      even: logger.jitter === 0 && !lost,
    }),
  };
}

function channelValue(
  channel: LoggedChannel,
  site: SiteModel,
  state: PlantState,
  reading: number,
  running: boolean,
  t: number,
  random: Random,
): number {
  switch (channel) {
    case "pressure":
      return loggedReading(site.logger.ownSensor ?? site.sensor, reading, random);
    case "pressure-at-pump":
      return state.manifold + 200 * random.normal();
    case "flow":
      return meteredFlow(site, state, random);
    case "speed":
      return Math.round(state.speed * 1000) / 1000;
    case "running":
      return running ? 1 : 0;
    case "current":
      return running ? site.pump.ratedCurrent * (IDLE_SHARE + (1 - IDLE_SHARE) * load(site, state)) * (1 + 0.01 * random.normal()) : 0;
    case "power":
      return running ? site.pump.ratedPower * load(site, state) * (1 + 0.01 * random.normal()) : 0;
    case "temperature":
      return airTemperature(site, t);
  }
}

/** Share of the rated power: cube of speed, half of it without flow. Common practice for a centrifugal pump, no source. */
const load = (site: SiteModel, state: PlantState) => state.speed ** 3 * (0.5 + (0.5 * state.pumpFlow) / site.pump.ratedFlow);

function meteredFlow(site: SiteModel, state: PlantState, random: Random): number {
  const { meter } = site.logger;
  const through = meter.place === "before-tank" ? state.pipeFlow : state.draw + (meter.seesLeak ? state.leak : 0);
  if (through < meter.leastFlow) return 0;
  const noisy = through * (1 + meter.noise * random.normal());
  return meter.step > 0 ? Math.round(noisy / meter.step) * meter.step : noisy;
}

/** A daily sine, coldest at 5 in the morning of the logger's clock. */
export function airTemperature(site: SiteModel, t: number): number {
  const { temperature, clock } = site.logger;
  const ofDay = clock.kind === "absolute" ? (clock.epoch + t) % 86400 : t % 86400;
  return temperature.mean - temperature.swing * Math.cos((2 * Math.PI * (ofDay - 5 * 3600)) / 86400);
}
