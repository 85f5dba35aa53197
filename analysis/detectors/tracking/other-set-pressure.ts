import type { TrackingFinding } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import type { Channel } from "../../../shared/record/log-record";
import { gaugePascal } from "../../../shared/units/pressure";
import { seconds } from "../../../shared/units/quantity";
import { findSecondSetPressure } from "../../segments/second-set-pressure";
import type { Evidence } from "../detector";

/** One of the two levels is the set pressure where it lies this near to it, as a share of what is between them; else the facts tell of neither. */
const NEAR = 1 / 3;

/** The pressure besides the set pressure that a drive was set to by the clock, and when; null where there is none. */
export function otherSetPressure(
  { record, site, segments: { pump } }: Evidence,
  pressure: Channel,
  set: number,
): TrackingFinding["otherSetPressure"] {
  if (site.pump === "fixed-speed" || isCannotTell(pump)) return null;
  const second = findSecondSetPressure(pressure, pump);
  if (second === null) return null;
  const { usual, other, times } = second;
  const isSet = (level: number) => Math.abs(level - set) < NEAR * Math.abs(usual - other);
  if (isSet(usual)) return { level: gaugePascal(other), times };
  return isSet(other) ? { level: gaugePascal(usual), times: between(times, record.duration) } : null;
}

/** What lies before, between and after some spans in order. */
function between(spans: readonly Span[], duration: number): Span[] {
  const from = [0, ...spans.map(({ to }) => to)];
  const to = [...spans.map((span) => span.from), duration];
  return from.map((begin, i) => ({ from: seconds(begin), to: seconds(to[i]) })).filter((span) => span.to > span.from);
}
