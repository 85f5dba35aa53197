import type { OscillationEpisode } from "../../../shared/findings/finding";
import type { MeterPlace } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import type { RefinedWave } from "./refine";
import { samplesIn, waveBlocks } from "./waves";

/** How a second channel moves with the pressure at the period. */
export type Companion = {
  /** 0 to 1. */
  readonly coherence: number;
  /** rad by which the channel leads the pressure, -pi to pi. */
  readonly leads: number;
  /** Amplitude at the period in the channel's own unit. */
  readonly amplitude: number;
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
  return { coherence, leads: Math.atan2(im, re), amplitude: Math.sqrt((theirs / n) * coherence), byChance: 1 - 0.01 ** (1 / (n - 1)) };
}

const degrees = (rad: number): number => (rad * 180) / Math.PI;

/**
 * Who drives the wave, from flow at the period. What is drawn through an open fixture follows the pressure at once (phase near 0): the wave
 * comes from the pressure side, that is the loop. Where the draw itself swings, the tank integrates it and pressure moves against it, a
 * quarter to half a turn apart. A meter on the pump's side sees the loop's swing lead the pressure by about a quarter turn (the tank integrates
 * it) and a swinging draw answered later. The controller ties speed to pressure in either case, so that speed alone decides nothing, except
 * that a steady speed cannot drive a wave.
 * Wrong where the flow meter is slow against the period. Common physics of an integrating tank; no published threshold.
 */
export function driverOf(flow: Companion | null, speed: Companion | null, meter: MeterPlace): OscillationEpisode["drivenBy"] {
  if (flow === null || !(flow.coherence > Math.max(0.5, flow.byChance))) return "unknown";
  const speedMoves = speed === null ? null : speed.coherence > Math.max(0.5, speed.byChance);
  const lead = degrees(flow.leads);
  if (meter.place === "before-tank") {
    if (speedMoves !== false && lead > -30 && lead < 135) return "loop";
    return "unknown";
  }
  if (Math.abs(lead) <= 55 && speedMoves !== false) return "loop";
  if (lead <= -65 || lead >= 115) return "demand";
  return "unknown";
}
