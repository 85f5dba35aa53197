import type { CannotTell } from "../../../shared/findings/cannot-tell";
import type { OscillationEpisode } from "../../../shared/findings/finding";
import { isCannotTell, type LivingTank, type MeterPlace } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import { type AbsolutePascal, gaugePascal, toAbsolute } from "../../../shared/units/pressure";
import { joule } from "../../../shared/units/quantity";
import { tankCompliance } from "../../hydraulics/tank-compliance";
import type { RefinedWave } from "./refine";
import { samplesIn, waveBlocks } from "./waves";

/** Air that has no time to give off its heat: ratio of specific heats. */
const FAST_GAS = 1.4;

/** How a second channel moves with the pressure at the period. */
export type Companion = {
  /** 0 to 1. */
  readonly coherence: number;
  /** rad by which the channel leads the pressure, -pi to pi. */
  readonly leads: number;
  /** Its amplitude at the period over the pressure's, in its own unit per Pa; with its noise at that period, so that it is never too small. */
  readonly perPascal: number;
  /** Coherence that chance reaches once in a hundred with so many blocks. */
  readonly byChance: number;
};

/** Compares block by block; null where the channel has too few samples in the episode. */
export function companionOf(channel: Channel | null, wave: RefinedWave, from: number, to: number): Companion | null {
  if (channel === null) return null;
  const { blocks } = wave;
  const samples = samplesIn(channel, from, to, 1 / wave.frequency);
  if (samples.times.length < 4 * blocks.re.length) return null;
  const other = waveBlocks(samples, blocks.frequency, blocks.length * blocks.frequency, blocks.origin, blocks.re.length);
  let n = 0;
  let re = 0;
  let im = 0;
  let own = 0;
  let theirs = 0;
  for (let j = 0; j < blocks.re.length; j++) {
    const a = other.re[j] * blocks.re[j] + other.im[j] * blocks.im[j];
    if (a - a !== 0) continue;
    n++;
    re += a;
    im += other.im[j] * blocks.re[j] - other.re[j] * blocks.im[j];
    own += blocks.re[j] ** 2 + blocks.im[j] ** 2;
    theirs += other.re[j] ** 2 + other.im[j] ** 2;
  }
  if (n < 3 || !(own > 0)) return null;
  const coherence = theirs > 0 ? (re * re + im * im) / (own * theirs) : 0;
  return { coherence, leads: Math.atan2(im, re), perPascal: Math.sqrt(theirs / own), byChance: 1 - 0.01 ** (1 / (n - 1)) };
}

const degrees = (rad: number): number => (rad * 180) / Math.PI;

const movesWithIt = ({ coherence, byChance }: Companion): boolean => coherence > Math.max(0.5, byChance);

/** Swing of water per swing of pressure that the living tank takes, m3/s per Pa: at the least, as fast gas; null where its softness is not known. */
export function tankBalance(tank: LivingTank | CannotTell, frequency: number, pressure: number, atmosphere: AbsolutePascal): number | null {
  if (isCannotTell(tank) || !(tank.give.low > 0) || !(pressure > (tank.emptiesAt?.high ?? Number.NEGATIVE_INFINITY))) return null;
  return 2 * Math.PI * frequency * tankCompliance(joule(tank.give.low), toAbsolute(gaugePascal(pressure), atmosphere), FAST_GAS);
}

/**
 * Who drives the wave, from flow at the period. What is drawn through an open fixture follows the pressure at once (phase near 0): the wave
 * comes from the pressure side, that is the loop. Where the draw itself swings, the tank integrates it and pressure moves against it, a
 * quarter to half a turn apart. A meter on the pump's side sees the loop's swing lead the pressure by about a quarter turn (the tank integrates
 * it) and a swinging draw answered later. The controller ties speed to pressure in either case, so that speed alone decides nothing, except
 * that a steady speed cannot drive a wave.
 * The water balance of the tank goes before the phase: a swing of pressure needs a swing of water of its softness times the angular frequency, and
 * where the metered draw swings by less than half of that while the speed goes with the wave, the pump brings the rest, that is the loop.
 * Wrong where the flow meter is slow against the period. Common physics of an integrating tank; no published threshold.
 */
export function driverOf(
  flow: Companion | null,
  speed: Companion | null,
  meter: MeterPlace,
  balance: number | null,
): OscillationEpisode["drivenBy"] {
  if (flow === null) return "unknown";
  const speedMoves = speed === null ? null : movesWithIt(speed);
  if (meter.place === "after-tank" && speedMoves === true && balance !== null && flow.perPascal < balance / 2) return "loop";
  if (!movesWithIt(flow)) return "unknown";
  const lead = degrees(flow.leads);
  if (meter.place === "before-tank") {
    if (speedMoves !== false && lead > -30 && lead < 135) return "loop";
    return "unknown";
  }
  if (Math.abs(lead) <= 55 && speedMoves !== false) return "loop";
  if (lead <= -65 || lead >= 115) return "demand";
  return "unknown";
}
