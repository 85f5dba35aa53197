import type { OscillationEpisode } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import { mainChannel } from "../../../shared/record/find-channel";
import { quantiles } from "../../numerics/order-statistics";
import type { Evidence } from "../detector";

/**
 * Whether a wave is the pump's starting and stopping. Starts read from the pressure itself: they fall in with the waves. No known starts: a triangle that takes up most of the pressure's own range is the filling and emptying of a tank.
 */
export function isCycling(episode: OscillationEpisode, evidence: Evidence): boolean {
  const { pump } = evidence.segments;
  if (episode.drivenBy === "demand") return false; // the draw swings with it: whatever the pump does is the answer
  if (isCannotTell(pump)) return fillsTheRange(episode, evidence);
  if (pump.basis !== "pressure" || pump.mode !== "switching") return false;
  const starts = pump.runs.filter((run) => run.from >= episode.from - episode.period.value && run.from <= episode.to).length;
  const waves = (episode.to - episode.from) / episode.period.value;
  if (starts < STARTS_PER_WAVE * waves) return false;
  // Smooth waves that make up nearly all of the movement are a loop's, whatever was read into them as starts.
  return !(episode.shape === "sine" && episode.share > SMOOTH);
}

/** Share of the movement that one smooth wave must make up. */
const SMOOTH = 0.8;
/** A start at least every third wave ties the waves to the pump's switching. */
const STARTS_PER_WAVE = 1 / 3;

function fillsTheRange(episode: OscillationEpisode, { record }: Evidence): boolean {
  if (episode.shape !== "triangle") return false;
  const channel = mainChannel(record, "pressure");
  if (channel === null) return false;
  const stride = Math.max(1, Math.floor(channel.values.length / 20_000));
  const some = Float64Array.from({ length: Math.floor(channel.values.length / stride) }, (_, i) => channel.values[i * stride]);
  const [low, high] = quantiles(some, [0.02, 0.98]);
  return episode.peakToPeak.value > 0.7 * (high - low);
}
