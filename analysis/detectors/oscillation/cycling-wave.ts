import type { OscillationEpisode } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import { mainChannel } from "../../../shared/record/find-channel";
import { median, quantiles } from "../../numerics/order-statistics";
import type { Evidence } from "../detector";

/**
 * Whether a wave is the pump's starting and stopping. Known starts: the wave's period, or a whole number of its waves, is the time between
 * them. No known starts: a triangle that takes up most of the pressure's own range is the filling and emptying of a tank.
 */
export function isCycling(episode: OscillationEpisode, evidence: Evidence): boolean {
  const { pump } = evidence.segments;
  if (isCannotTell(pump)) return fillsTheRange(episode, evidence);
  if (pump.basis !== "pressure" || pump.mode !== "switching") return false;
  const starts = pump.runs.filter((run) => run.from >= episode.from && run.from <= episode.to).map((run) => run.from);
  const between = median(starts.slice(1).map((t, i) => t - starts[i]));
  if (!Number.isFinite(between) || episode.shape === "sine") return false;
  const waves = between / episode.period.value;
  return Math.abs(waves - Math.max(1, Math.round(waves))) < 0.15 * Math.max(1, waves) && waves < 6;
}

function fillsTheRange(episode: OscillationEpisode, { record }: Evidence): boolean {
  if (episode.shape !== "triangle") return false;
  const channel = mainChannel(record, "pressure");
  if (channel === null) return false;
  const stride = Math.max(1, Math.floor(channel.values.length / 20_000));
  const some = Float64Array.from({ length: Math.floor(channel.values.length / stride) }, (_, i) => channel.values[i * stride]);
  const [low, high] = quantiles(some, [0.02, 0.98]);
  return episode.peakToPeak.value > 0.7 * (high - low);
}
