import { seededRandom } from "../../analysis/numerics/random";
import type { LogRecord } from "../../shared/record/log-record";
import { PASCAL_PER_PSI as PSI, STANDARD_ATMOSPHERE } from "../../shared/units/pressure";
import { channel, every, recordOf } from "./record";

export const GAL = 3.785411784e-3;
export const GPM = GAL / 60;

export type TankLog = {
  /** Tank: total volume m3, precharge Pa gauge. */
  readonly volume: number;
  readonly precharge: number;
  readonly cutIn: number;
  readonly cutOut: number;
  /** Flow drawn at a second, m3/s. */
  readonly draw: (t: number) => number;
  /** Lost without a meter seeing it, m3/s. */
  readonly unseen?: number;
  readonly seconds: number;
  readonly step?: number;
  readonly noise?: number;
  readonly pumpFlow?: number;
  /** Loss between tank and sensor while only the tank gives, Pa per (m3/s)^2. */
  readonly friction?: number;
  readonly seed?: number;
};

const GIVE_OF_PIPES = 5e-9; // m3/Pa, a fortieth of the tank's: hardly any water for much pressure once the tank is empty

/**
 * A fixed-speed pump, a tank by Boyle's law p (Vt - Vw) = p0 Vt, a meter after it and a running flag: pressure follows from the water in the tank
 * alone, so K = p0 Vt, the knee at the precharge and every run are known exactly.
 */
export function tankLog(log: TankLog): LogRecord {
  const {
    volume,
    precharge,
    cutIn,
    cutOut,
    draw,
    unseen = 0,
    seconds,
    step = 1,
    noise = 0,
    pumpFlow = 12 * GPM,
    friction = 0,
    seed = 1,
  } = log;
  const k = (precharge + STANDARD_ATMOSPHERE) * volume;
  const pressureOf = (water: number) =>
    water >= 0 ? k / (volume - water) - STANDARD_ATMOSPHERE : Math.max(0, precharge + water / GIVE_OF_PIPES);
  const chance = seededRandom(seed);
  const fine = 0.05;
  let water = volume - k / (cutOut + STANDARD_ATMOSPHERE);
  let running = false;
  const rows: { p: number; q: number; on: number }[] = [];
  for (let i = 0; i * fine < seconds; i++) {
    const p = pressureOf(water);
    if (p <= cutIn) running = true;
    if (p >= cutOut) running = false;
    const q = draw(i * fine);
    if (i % Math.round(step / fine) === 0) {
      const seen = p - (running ? 0 : friction * q * q);
      rows.push({ p: seen + noise * chance.normal(), q, on: running ? 1 : 0 });
    }
    water = Math.max(-precharge * GIVE_OF_PIPES, water + fine * ((running ? pumpFlow : 0) - q - (running ? 0 : unseen)));
  }
  const sampling = every(step, rows.length);
  return recordOf([
    channel(
      "pressure",
      sampling,
      rows.map(({ p }) => p),
    ),
    channel(
      "flow",
      sampling,
      rows.map(({ q }) => q),
    ),
    channel(
      "running",
      sampling,
      rows.map(({ on }) => on),
    ),
  ]);
}

/** Draws of a few gpm for some minutes with quiet between, by a fixed pattern: 3 gpm for 90 s, nothing for 60, 5 gpm for 40, nothing for 110. */
export const someDraws = (t: number): number => {
  const s = t % 300;
  return s < 90 ? 3 * GPM : s >= 150 && s < 190 ? 5 * GPM : 0;
};
/** Nothing for ten minutes, then 4 gpm for one. */
export const rareDraws = (t: number): number => (t % 660 < 600 ? 0 : 4 * GPM);

/** A 20 gal tank charged to 38 psi between 40 and 60 psi. */
export const usualTank = { volume: 20 * GAL, precharge: 38 * PSI, cutIn: 40 * PSI, cutOut: 60 * PSI } as const;
export const gasConstantOf = ({ volume, precharge }: { volume: number; precharge: number }) => (precharge + STANDARD_ATMOSPHERE) * volume;
