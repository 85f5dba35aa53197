import type { Random } from "../numerics/random";
import { type SensorModel, type SiteModel, within } from "./site-model";

/** A pressure sensor at work. Mutable inside; `read` gives what leaves it, without the white noise of a single reading. */
export type Sensor = {
  /** Where it sits: 0 at the tank, 1 at the manifold. */
  readonly place: number;
  /** Lets it see the pressure for a time, s. */
  update(pressure: number, elapsed: number): void;
  /** New pressure shake of turbulence for a flow, m3/s; call at a steady pace. */
  shake(flow: number, elapsed: number): void;
  read(t: number): number;
  /** What it would read after seeing a pressure for so long, without going there. */
  foresee(pressure: number, elapsed: number, t: number): number;
};

const SHAKE_TIME = 0.3; // s, correlation of turbulent pressure in a fitting; common practice, no source
const WATER = 998.2; // kg/m3

export function makeSensor(model: SensorModel, site: SiteModel, start: number, random: Random): Sensor {
  let seen = start;
  let shake = 0;
  let held = Number.NaN;
  const area = (Math.PI / 4) * site.pipe.bore ** 2;
  let before = start;
  // Exact for a pressure that moves in a straight line from one end of the step to the other.
  const follow = (pressure: number, elapsed: number) => {
    if (model.lag <= 0) return pressure + shake;
    const behind = ((pressure - before) / elapsed) * model.lag;
    return pressure + shake - behind + (seen - before - shake + behind) * Math.exp(-elapsed / model.lag);
  };
  const show = (p: number) => Math.min(model.range.high, Math.max(model.range.low, model.scale.gain * p + model.scale.offset));
  return {
    place: site.pipe.length > 0 ? Math.min(1, model.fromTank / site.pipe.length) : 0,
    update: (pressure, elapsed) => {
      seen = follow(pressure, elapsed);
      before = pressure;
    },
    shake: (flow, elapsed) => {
      if (model.turbulence === 0) return;
      const keep = Math.exp(-elapsed / SHAKE_TIME);
      const spread = model.turbulence * (WATER / 2) * (flow / area) ** 2;
      shake = keep * shake + spread * Math.sqrt(1 - keep * keep) * random.normal();
    },
    read: (t) => {
      if (model.stuck.length === 0 || !within(model.stuck, t)) {
        held = Number.NaN;
        return show(seen);
      }
      if (Number.isNaN(held)) held = show(seen);
      return held;
    },
    foresee: (pressure, elapsed, t) => (Number.isNaN(held) || !within(model.stuck, t) ? show(follow(pressure, elapsed)) : held),
  };
}

/** A single reading as it is logged: white noise, steps of the converter, ends of the range. */
export function loggedReading(model: SensorModel, reading: number, random: Random): number {
  const noisy = reading + (model.noise > 0 ? model.noise * random.normal() : 0);
  const stepped = model.step > 0 ? Math.round(noisy / model.step) * model.step : noisy;
  return Math.min(model.range.high, Math.max(model.range.low, stepped));
}
