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
  // fields of one object, for a variable that closures share is boxed anew each time it changes
  const now = { seen: start, before: start, shake: 0, held: Number.NaN, elapsed: Number.NaN, decay: 1 };
  const area = (Math.PI / 4) * site.pipe.bore ** 2;
  const decayOver = (elapsed: number) => {
    if (elapsed !== now.elapsed) {
      now.elapsed = elapsed;
      now.decay = Math.exp(-elapsed / model.lag);
    }
    return now.decay;
  };
  // Exact for a pressure that moves in a straight line from one end of the step to the other.
  const follow = (pressure: number, elapsed: number) => {
    if (model.lag <= 0) return pressure + now.shake;
    const behind = ((pressure - now.before) / elapsed) * model.lag;
    return pressure + now.shake - behind + (now.seen - now.before - now.shake + behind) * decayOver(elapsed);
  };
  const show = (p: number) => Math.min(model.range.high, Math.max(model.range.low, model.scale.gain * p + model.scale.offset));
  return {
    place: site.pipe.length > 0 ? Math.min(1, model.fromTank / site.pipe.length) : 0,
    update: (pressure, elapsed) => {
      now.seen = follow(pressure, elapsed);
      now.before = pressure;
    },
    shake: (flow, elapsed) => {
      if (model.turbulence === 0) return;
      const keep = Math.exp(-elapsed / SHAKE_TIME);
      const spread = model.turbulence * (WATER / 2) * (flow / area) ** 2;
      now.shake = keep * now.shake + spread * Math.sqrt(1 - keep * keep) * random.normal();
    },
    read: (t) => {
      if (model.stuck.length === 0 || !within(model.stuck, t)) {
        now.held = Number.NaN;
        return show(now.seen);
      }
      if (Number.isNaN(now.held)) now.held = show(now.seen);
      return now.held;
    },
    foresee: (pressure, elapsed, t) => (Number.isNaN(now.held) || !within(model.stuck, t) ? show(follow(pressure, elapsed)) : now.held),
  };
}

/** A single reading as it is logged: white noise, steps of the converter, ends of the range. */
export function loggedReading(model: SensorModel, reading: number, random: Random): number {
  const noisy = reading + (model.noise > 0 ? model.noise * random.normal() : 0);
  const stepped = model.step > 0 ? Math.round(noisy / model.step) * model.step : noisy;
  return Math.min(model.range.high, Math.max(model.range.low, stepped));
}
