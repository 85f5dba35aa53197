import type { OscillationEpisode } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter } from "../../../shared/record/sampling";
import { median, quantiles } from "../../numerics/order-statistics";
import { someValues } from "../../numerics/some-values";
import { mayOnlyHunt } from "../../segments/even-swing";
import { isSmoothWave } from "../../segments/lobe-shape";
import { type Turn, turningPoints } from "../../segments/turning-points";
import type { Evidence } from "../detector";

/**
 * Whether a wave is the pump's starting and stopping. Starts read from the pressure itself: they fall in with the waves. No known starts: a triangle that takes up most of the pressure's own range is the
 * filling and emptying of a tank, unless a drive alone can have made it.
 */
export function isCycling(episode: OscillationEpisode, evidence: Evidence): boolean {
  const { pump } = evidence.segments;
  if (episode.drivenBy === "demand") return false; // the draw swings with it: whatever the pump does is the answer
  if (episode.meterSeesPump && flowsOn(episode, evidence)) return false;
  if (isCannotTell(pump)) return fillsTheRange(episode, evidence);
  if (pump.basis !== "pressure" || pump.mode !== "switching") return false;
  const starts = pump.runs.filter((run) => run.from >= episode.from - episode.period.value && run.from <= episode.to).length;
  const waves = (episode.to - episode.from) / episode.period.value;
  if (starts < STARTS_PER_WAVE * waves || isDrowned(episode, evidence)) return false;
  // Smooth waves are a loop's, whatever was read into them as starts; a pump on a switch has no loop, and a triangle's first harmonic alone is 98.5 % of it.
  return evidence.site.pump === "fixed-speed" || !smoothWithin(episode, evidence);
}

/** Least of a pump's flow over its usual one, which no rest leaves: that at one sample in twenty, and the share above which it is no meter's rest. */
const RESTS = { quantile: 0.05, share: 0.2 };

/** Whether the pump's own flow goes on through the waves: then it never stopped. */
function flowsOn({ from, to }: OscillationEpisode, { record }: Evidence): boolean {
  const flow = mainChannel(record, "flow");
  if (flow === null) return false;
  const [first, end] = [indexAtOrAfter(flow.sampling, from), indexAtOrAfter(flow.sampling, to)];
  const [least, usual] = quantiles(someValues(flow.values.subarray(first, end)), [RESTS.quantile, 0.5]);
  return least > RESTS.share * usual;
}

function turnsWithin({ from, to, peakToPeak }: OscillationEpisode, { sampling, values }: Channel): Turn[] {
  const last = Math.min(indexAtOrAfter(sampling, to), values.length - 1);
  return turningPoints(values, indexAtOrAfter(sampling, from), last, peakToPeak.value / 2);
}

function smoothWithin(episode: OscillationEpisode, { record }: Evidence): boolean {
  const channel = mainChannel(record, "pressure");
  if (channel === null) return false;
  const turns = turnsWithin(episode, channel);
  const [low, high] = (["low", "high"] as const).map((kind) =>
    median(turns.filter((t) => t.kind === kind).map((t) => channel.values[t.index])),
  );
  return isSmoothWave(channel.values, turns, (low + high) / 2);
}

/** A start at least every third wave ties the waves to the pump's switching. */
const STARTS_PER_WAVE = 1 / 3;
/** Height of the wave over the range of the readings around it: a saw-tooth between two switching pressures is most of it, where it keeps its length. */
const LEAST_OF_RANGE = 0.5;
/**
 * How far the readings go beyond their middle half, over that half: 0.46 for a saw-tooth of whatever lengths between two pressures (it fills them
 * evenly), 1.03 for normal noise, 0.9 for a sine drowned in noise of its own size. Quantiles of the uniform and the normal distribution.
 */
const LEAST_TAIL = 0.65;

/** Whether the wave is drowned in noise that goes far beyond its crests and troughs: pressures at which a pump switches end its swing. */
function isDrowned({ from, to, peakToPeak }: OscillationEpisode, { record }: Evidence): boolean {
  const channel = mainChannel(record, "pressure");
  if (channel === null) return false;
  const [first, end] = [indexAtOrAfter(channel.sampling, from), indexAtOrAfter(channel.sampling, to)];
  const [low, quarter, upper, high] = quantiles(someValues(channel.values.subarray(first, end)), [0.02, 0.25, 0.75, 0.98]);
  const tail = Math.min(quarter - low, high - upper);
  return peakToPeak.value < LEAST_OF_RANGE * (high - low) && tail > LEAST_TAIL * (upper - quarter);
}

function fillsTheRange(episode: OscillationEpisode, { record, site }: Evidence): boolean {
  if (episode.shape !== "triangle") return false;
  const channel = mainChannel(record, "pressure");
  if (channel === null || mayOnlyHunt(channel.values, turnsWithin(episode, channel), episode.peakToPeak.value, site.pump)) return false;
  const stride = Math.max(1, Math.floor(channel.values.length / 20_000));
  const some = Float64Array.from({ length: Math.floor(channel.values.length / stride) }, (_, i) => channel.values[i * stride]);
  const [low, high] = quantiles(some, [0.02, 0.98]);
  return episode.peakToPeak.value > 0.7 * (high - low);
}
