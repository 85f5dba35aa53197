import type { CannotTell } from "../../shared/findings/cannot-tell";
import { isCannotTell } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { cubicMetre, seconds } from "../../shared/units/quantity";
import { type Stretch, stretchesOf, totalTime, valuesWithoutSpikes } from "../faults/observed";
import { withoutTremble } from "../segments/flow-thresholds";
import { cumulativeVolume } from "../segments/volume";
import type { Detector } from "./detector";

const DAY = 86_400;
const HOUR = 3600;
const AT_REST = 0.05; // of the highest flow

/**
 * Figures of use for a report: water per day of observed time, the hour with most water, and how many draws. A meter before the tank counts what the pump
 * gave, which over days is the same water. Under a day of record the words give what was drawn, not the day that it would make.
 */
export const demand: Detector<"demand"> = {
  kind: "demand",
  detect({ record, faults, segments: { draw, meter } }) {
    const kind = "demand" as const;
    const flow = mainChannel(record, "flow");
    const missing: CannotTell = { id: "no-flow-channel", about: "drift", detail: { missing: "flow" } };
    if (flow === null) return { kind, state: "cannot-tell", because: [missing] };
    if (neverRests(flow)) return { kind, state: "cannot-tell", because: [EVENTS_ONLY] };
    const values = withoutTremble(valuesWithoutSpikes(flow, faults));
    const stretches = stretchesOf(flow, faults);
    const volume = cumulativeVolume(flow, values);
    const observed = totalTime(stretches);
    const total = stretches.reduce((sum, { first, last }) => sum + volume[last] - volume[first], 0);
    if (!(observed > 0)) return { kind, state: "cannot-tell", because: [missing] };
    const peak = peakHour(flow, volume, stretches);
    const draws = isCannotTell(draw) || draw.basis !== "flow" ? null : draw.draws.length;
    const finding = {
      kind,
      places: [peak.span],
      channels: [flow.heading],
      observed: seconds(observed),
      volumePerDay: cubicMetre((total * DAY) / observed),
      peakHourVolume: cubicMetre(peak.volume),
      peakHour: peak.span,
      draws,
      meter: meter.place,
      meterFrom: meter.from,
    };
    return { kind, state: "found", finding, limits: [] };
  },
};

const EVENTS_ONLY: CannotTell = {
  id: "nothing-to-see",
  about: "leak",
  detail: { why: "single-events" },
};

/** A log on change writes when the flow ends; one in which it never does lists events, and holding their values would make up water. */
function neverRests({ sampling, values }: Channel): boolean {
  if (sampling.kind !== "on-change") return false;
  let most = 0;
  for (const value of values) if (value > most) most = value;
  return !values.some((value) => value <= AT_REST * most);
}

/** Most water in any hour that lies in one stretch, or in a whole stretch shorter than that. Two pointers, O(n). */
function peakHour({ sampling }: Channel, volume: Float64Array, stretches: readonly Stretch[]): { volume: number; span: Span } {
  let best = { volume: Number.NEGATIVE_INFINITY, span: { from: seconds(0), to: seconds(0) } };
  for (const { first, last } of stretches) {
    for (let i = first, from = first; i <= last; i++) {
      while (timeAt(sampling, i) - timeAt(sampling, from) > HOUR) from++;
      const water = volume[i] - volume[from];
      if (water > best.volume) best = { volume: water, span: { from: timeAt(sampling, from), to: timeAt(sampling, i) } };
    }
  }
  return best;
}
