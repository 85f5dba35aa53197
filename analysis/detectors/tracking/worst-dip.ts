import type { TrackingFinding } from "../../../shared/findings/finding";
import { isCannotTell } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import { pascalDifference } from "../../../shared/units/pressure";
import { seconds } from "../../../shared/units/quantity";
import { isWithin } from "../../segments/is-within";
import type { Evidence } from "../detector";

/** How long after a draw begins a dip still belongs to it. Common practice, no source. */
const DIP_WITHIN = 60; // s

/**
 * The deepest fall below the set pressure within a minute after a draw began, and the time from there until back within the band; null without draws.
 * @param without times in which another pressure was asked for
 */
export function worstDip(
  { segments: { draw } }: Evidence,
  pressure: Channel,
  set: number,
  band: number,
  without: readonly Span[] = [],
): TrackingFinding["worstDip"] {
  if (isCannotTell(draw) || draw.draws.length === 0) return null;
  let lowest = set;
  let at = -1;
  for (const { from, to } of draw.draws) {
    if (isWithin(without, from)) continue;
    const end = indexAtOrAfter(pressure.sampling, Math.min(from + DIP_WITHIN, to));
    for (let i = indexAtOrAfter(pressure.sampling, from); i < end; i++) {
      if (pressure.values[i] < lowest) {
        lowest = pressure.values[i];
        at = i;
      }
    }
  }
  if (at < 0) return null;
  return { at: timeAt(pressure.sampling, at), depth: pascalDifference(set - lowest), recovery: recoveryFrom(pressure, at, set - band) };
}

/** Null where a missing value or the end of the record comes first. */
function recoveryFrom({ sampling, values }: Channel, at: number, back: number) {
  for (let i = at; i < values.length; i++) {
    if (Number.isNaN(values[i])) return null;
    if (values[i] >= back) return seconds(timeAt(sampling, i) - timeAt(sampling, at));
  }
  return null;
}
