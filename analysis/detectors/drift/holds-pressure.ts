import { isCannotTell } from "../../../shared/findings/segment";
import { channelsOf } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter } from "../../../shared/record/sampling";
import { median, quantiles } from "../../numerics/order-statistics";
import type { Evidence } from "../detector";

/**
 * Whether anything at the site holds a pressure at all, so that a change at steady draw would be drift. A pump that only switches raises the
 * pressure from cut-in to cut-out in every run, and that is its work.
 */
export function holdsPressure({ record, site, segments: { pump } }: Evidence, pressure: Channel): boolean {
  if (site.pump !== null) return site.pump === "variable-speed";
  if (isCannotTell(pump) || pump.mode !== "switching") return true;
  if (channelsOf(record, "speed").length > 0) return true;
  const rises = pump.runs.filter((r) => r.complete).map((r) => valueNear(pressure, r.to) - valueNear(pressure, r.from));
  const [low, high] = quantiles(pressure.values.subarray(0, 200_000), [0.02, 0.98]);
  return !(rises.length >= 3 && median(rises) > 0.6 * (high - low));
}

const valueNear = (channel: Channel, t: number): number =>
  channel.values[Math.min(channel.values.length - 1, indexAtOrAfter(channel.sampling, t))];
