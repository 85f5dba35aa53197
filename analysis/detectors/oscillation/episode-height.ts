import { type Measured, measured } from "../../../shared/units/measured";
import { type PascalDifference, pascalDifference } from "../../../shared/units/pressure";
import { studentQuantile } from "../../numerics/distributions";
import type { RefinedWave } from "./refine";
import { stackedHeight } from "./stacked-height";
import { type Lengths, stackWaves } from "./stacked-waves";
import { sampleNoise, turnedHeight } from "./turned-height";
import { phasesOf, type WaveShape } from "./wave-shape";
import { type Samples, samplesPerWave } from "./waves";

export type EpisodeHeight = {
  readonly peakToPeak: Measured<PascalDifference>;
  /** So few samples a wave that its crests may stand much higher. */
  readonly isLeast: boolean;
  /** How waves differ in length, where noise lets single ones be seen. */
  readonly lengths: Lengths;
};

/** Scatter around the usual wave over the noise of a sample from which on the waves differ from each other. */
const DIFFER = 2;
/** Noise of a sample over the harmonics' height from which on single waves are no longer looked at: narrow dips stand up to five times over theirs. */
const NOISY = 0.5;
/** From this part of the height on that a logger of means would take off, it is said to be the least. */
const MUCH = 0.1;
/** Fewer samples a wave show its first harmonic only. */
const SHAPELESS = 7;

const NOT_SEEN: Lengths = { variance: 0, count: 0 };

/**
 * Height of the usual wave. Of the waves laid over each other; where they differ from each other, of each by its own turns; where noise hides the single wave,
 * of the harmonics that stand out of it.
 */
export function heightOf(samples: Samples, wave: RefinedWave, shape: WaveShape): EpisodeHeight {
  const perWave = samplesPerWave(samples, wave.frequency);
  const rough = 2 * shape.peakToPeakFactor * wave.amplitude;
  const noise = sampleNoise(samples.values, Math.max(1, Math.round(perWave / 16)));
  const turns = () => phasesOf(samples, wave).map((phase) => phase / (2 * Math.PI));
  const stacks = noise < NOISY * rough ? stackWaves(samples, turns(), perWave) : null;
  const stacked = stacks === null ? null : stackedHeight(stacks, perWave);
  const alike = stacked !== null && stacked.scatter < DIFFER * noise;
  const found = alike ? stacked : (turnedHeight(samples.values, perWave, rough) ?? stacked);
  const lengths = stacks?.lengths ?? NOT_SEEN;
  const byHarmonics = heightOfHarmonics(wave, shape, perWave);
  const sameShape = alike && wave.coherent && shape.shape !== "unclear";
  // Of a steady wave of a known shape the harmonics tell more, from all samples, where they do not contradict.
  if (sameShape && byHarmonics.value > stacked.low && byHarmonics.value < stacked.high)
    return { peakToPeak: byHarmonics, isLeast: false, lengths };
  if (found === null) return { peakToPeak: byHarmonics, isLeast: perWave < SHAPELESS, lengths: NOT_SEEN };
  const { value, low, high, hidden } = found;
  return {
    peakToPeak: measured(pascalDifference(value), pascalDifference(low), pascalDifference(high)),
    isLeast: hidden > MUCH * value,
    lengths,
  };
}

function heightOfHarmonics(
  wave: RefinedWave,
  { peakToPeakFactor, factorWithUnseen }: WaveShape,
  perWave: number,
): Measured<PascalDifference> {
  const reach = studentQuantile(0.975, wave.degreesOfFreedom) * wave.amplitudeSd;
  // A logger that stores means keeps sin(x) / x of a sine, x half the turn of one sample.
  const kept = Math.sin(Math.PI / perWave) / (Math.PI / perWave);
  return measured<PascalDifference>(
    pascalDifference(2 * peakToPeakFactor * wave.amplitude),
    pascalDifference(2 * peakToPeakFactor * Math.max(0, wave.amplitude - reach)),
    pascalDifference((2 * factorWithUnseen * (wave.amplitude + reach)) / kept),
  );
}
