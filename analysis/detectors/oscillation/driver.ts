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

/** Leads between which water that goes through the meter raises the pressure: it goes into the tank. Nearer to 0 or half a turn the sign does not show. Degrees. */
const INTO_TANK = { from: 55, to: 165 };

/**
 * Whether the meter sees the pump's own water, that into the tank: by its place, or, where that is not given, by the sign of its swing against the rate of the pressure. Water into a tank raises its pressure, so
 * that the flow leads by about a quarter turn; water drawn from it lowers it. A loop that overdoes its answer to a swinging draw gives the wrong sign (so a given place goes before it), and then nothing is said that could be.
 */
export function seesThePump(flow: Companion | null, meter: MeterPlace): boolean {
  if (flow === null || meter.place === "before-tank") return flow !== null;
  const lead = degrees(flow.leads);
  return meter.from !== "given" && movesWithIt(flow) && lead > INTO_TANK.from && lead < INTO_TANK.to;
}

/**
 * Who drives the wave, from flow at the period. What is drawn through an open fixture follows the pressure at once (phase near 0): the wave
 * comes from the pressure side, that is the loop. Where the draw itself swings, the tank integrates it and pressure moves against it, a
 * quarter to half a turn behind. A meter that sees the pump's water swings with it whoever drives, and tells nothing. The controller ties speed to pressure in
 * either case, so that speed alone decides nothing, except that a steady speed cannot drive a wave.
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
  if (flow === null || seesThePump(flow, meter)) return "unknown";
  const speedMoves = speed === null ? null : movesWithIt(speed);
  if (meter.place === "after-tank" && speedMoves === true && balance !== null && flow.perPascal < balance / 2) return "loop";
  if (!movesWithIt(flow)) return "unknown";
  const lead = degrees(flow.leads);
  if (Math.abs(lead) <= 55 && speedMoves !== false) return "loop";
  return lead <= -65 || lead >= 115 ? "demand" : "unknown";
}
