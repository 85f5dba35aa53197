import type { OscillationEpisode } from "../../../shared/findings/finding";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { measured } from "../../../shared/units/measured";
import { seconds } from "../../../shared/units/quantity";
import { studentQuantile } from "../../numerics/distributions";
import { mean } from "../../numerics/moments";
import type { Evidence } from "../detector";
import { companionOf, driverOf, seesThePump, tankBalance } from "./driver";
import { heightOf } from "./episode-height";
import type { EpisodeSpan, Group } from "./episode-span";
import { type NoiseAround, type RefinedWave, refineWave } from "./refine";
import type { Lengths } from "./stacked-waves";
import { shapeOf } from "./wave-shape";
import { samplesIn } from "./waves";
import { couldFoldFrom } from "./what-cannot-be-seen";

/** All numbers of one episode; null where its wave does not hold up on the raw samples or stays below the floor. */
export function describeEpisode(
  evidence: Evidence,
  channel: Channel,
  group: Group,
  span: EpisodeSpan,
  leastPeakToPeak: number,
): OscillationEpisode | null {
  const samples = samplesIn(channel, span.from, span.to, group.best.period);
  const wave = samples.times.length < 16 ? null : refineWave(samples, group.best.period, noiseAround(group), span.unsure);
  if (wave === null || !(wave.frequency > 0) || Math.abs(wave.frequency * group.best.period - 1) > 0.25) return null;
  const shape = shapeOf(samples, wave);
  const { peakToPeak, isLeast, lengths } = heightOf(samples, wave, shape);
  if (peakToPeak.value < leastPeakToPeak) return null;
  const flow = companionOf(mainChannel(evidence.record, "flow"), wave, span.from, span.to);
  const speed = companionOf(mainChannel(evidence.record, "speed"), wave, span.from, span.to);
  const { segments, site } = evidence;
  const balance = tankBalance(segments.tank, wave.frequency, mean(samples.values), site.atmosphere.value);
  const period = 1 / wave.frequency;
  return {
    from: seconds(span.from),
    to: seconds(span.to),
    channel: channel.heading,
    period: periodOf(wave, lengths),
    peakToPeak,
    heightIsLeast: isLeast,
    regularity: group.best.regularity,
    shape: shape.shape,
    drivenBy: driverOf(flow, speed, segments.meter, balance),
    meterSeesPump: seesThePump(flow, segments.meter),
    share: wave.share,
    couldBeFoldedFrom: couldFoldFrom(period, channel),
  };
}

/**
 * The period, known no better than the mean of waves that differ in length from one to the next: to s / sqrt(n), on n - 1 degrees of freedom. Noise alone does not make them differ.
 */
function periodOf({ frequency, frequencyLow, frequencyHigh }: RefinedWave, { variance, count }: Lengths) {
  const wander = variance > 0 ? frequency * Math.sqrt(variance / count) * studentQuantile(0.975, count - 1) : 0;
  const fastest = frequency + Math.hypot(frequencyHigh - frequency, wander);
  const slowest = frequency - Math.hypot(frequency - frequencyLow, wander);
  return measured(seconds(1 / frequency), seconds(1 / fastest), seconds(1 / Math.max(slowest, frequency / 10)));
}

const noiseAround = ({ best, noiseDensity }: Group): NoiseAround => ({ density: noiseDensity, carriedBy: best.carriedBy });
