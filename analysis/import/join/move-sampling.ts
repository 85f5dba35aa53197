import type { Sampling } from "../../../shared/record/log-record";
import { seconds } from "../../../shared/units/quantity";

const moved = (times: Float64Array, by: number) => times.map((t) => t + by);

/** The same instants counted from an epoch that lies `by` seconds earlier. */
export function moveSampling(sampling: Sampling, by: number): Sampling {
  if (by === 0) return sampling;
  if (sampling.kind === "even") return { ...sampling, start: seconds(sampling.start + by) };
  const times = moved(sampling.times, by);
  if (sampling.kind === "listed") return { kind: "listed", times };
  const { rows } = sampling;
  return { kind: "on-change", times, until: seconds(sampling.until + by), ...(rows === undefined ? {} : { rows: moved(rows, by) }) };
}
