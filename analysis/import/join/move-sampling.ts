import type { Sampling } from "../../../shared/record/log-record";
import { seconds } from "../../../shared/units/quantity";

/** The same instants counted from an epoch that lies `by` seconds earlier. */
export function moveSampling(sampling: Sampling, by: number): Sampling {
  if (by === 0) return sampling;
  if (sampling.kind === "even") return { ...sampling, start: seconds(sampling.start + by) };
  const times = sampling.times.map((t) => t + by);
  return sampling.kind === "listed" ? { kind: "listed", times } : { kind: "on-change", times, until: seconds(sampling.until + by) };
}
