import type { OscillationEpisode } from "../../../shared/findings/finding";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { measured } from "../../../shared/units/measured";
import { type PascalDifference, pascalDifference } from "../../../shared/units/pressure";
import { seconds } from "../../../shared/units/quantity";
import { studentQuantile } from "../../numerics/distributions";
import { mean } from "../../numerics/moments";
import type { Evidence } from "../detector";
import { companionOf, driverOf, tankBalance } from "./driver";
import type { EpisodeSpan, Group } from "./episode-span";
import { type NoiseAround, type RefinedWave, refineWave } from "./refine";
import { shapeOf, type WaveShape } from "./wave-shape";
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
  const peakToPeak = heightOf(wave, shape);
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
    period: measured(seconds(period), seconds(1 / wave.frequencyHigh), seconds(1 / Math.max(wave.frequencyLow, wave.frequency / 10))),
    peakToPeak,
    regularity: group.best.regularity,
    shape: shape.shape,
    drivenBy: driverOf(flow, speed, segments.meter, balance),
    share: wave.share,
    couldBeFoldedFrom: couldFoldFrom(period, channel),
  };
}

const noiseAround = ({ best, noiseDensity }: Group): NoiseAround => ({ density: noiseDensity, carriedBy: best.carriedBy });

function heightOf(wave: RefinedWave, { peakToPeakFactor, factorWithUnseen }: WaveShape) {
  const reach = studentQuantile(0.975, wave.degreesOfFreedom) * wave.amplitudeSd;
  return measured<PascalDifference>(
    pascalDifference(2 * peakToPeakFactor * wave.amplitude),
    pascalDifference(2 * peakToPeakFactor * Math.max(0, wave.amplitude - reach)),
    pascalDifference(2 * factorWithUnseen * (wave.amplitude + reach)),
  );
}
