import type { Channel } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { median } from "../numerics/order-statistics";

/** A sample stands for the time to the next one, but not across a gap (more than five typical intervals). */
export function eachSample(channel: Channel, visit: (t: number, value: number, lasts: number) => void): void {
  const { sampling, values } = channel;
  const n = sampleCount(sampling);
  const longest = sampling.kind === "on-change" ? Number.POSITIVE_INFINITY : 5 * (typicalInterval(channel) ?? 0);
  for (let i = 0; i + 1 < n; i++) {
    const t = timeAt(sampling, i);
    const lasts = timeAt(sampling, i + 1) - t;
    if (lasts <= longest && !Number.isNaN(values[i])) visit(t, values[i], lasts);
  }
}

/** Median step of a channel, s; null where it has fewer than two samples. */
export function typicalInterval({ sampling }: Channel): number | null {
  if (sampling.kind === "even") return sampling.step;
  const n = sampling.times.length;
  return n < 2 ? null : median(Float64Array.from({ length: n - 1 }, (_, i) => sampling.times[i + 1] - sampling.times[i]));
}
