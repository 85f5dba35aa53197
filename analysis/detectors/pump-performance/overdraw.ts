import { type Span, spanLength } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../../shared/record/sampling";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { median, quantile } from "../../numerics/order-statistics";
import { someValues } from "../../numerics/some-values";
import { overlaps } from "../../segments/idle-rests";
import { spansBelow } from "../../segments/switching";
import type { Evidence } from "../detector";
import { atFullSpeed } from "./full-speed";

const LEAST = 30; // s; shorter is a drive on its way back to the set pressure
const MUCH_FLOW = 0.3; // of the highest; less than that at full speed is a weak pump or a lost prime, not overdraw

/** Stretches at full speed with pressure below the band about the set pressure, while much water flows (or the flow is not logged). */
export function overdraws(evidence: Evidence, pressure: Channel): Span[] {
  const { faults, site, record } = evidence;
  const full = atFullSpeed(evidence, pressure);
  if (full === null || site.setPressure === null) return [];
  const values = valuesWithoutSpikes(pressure, faults);
  const limit = site.setPressure.value - site.limits.band.value;
  const low = spansBelow(values, pressure.sampling, stretchesOf(pressure, faults), limit);
  const spans = overlaps(full.spans, low).filter((span) => spanLength(span) >= LEAST && !isRecovery(pressure, values, span, limit));
  const flow = mainChannel(record, "flow");
  if (flow === null) return spans;
  const flows = valuesWithoutSpikes(flow, faults);
  const much = MUCH_FLOW * (site.pumpRatedFlow?.value ?? quantile(someValues(flows), 0.999));
  return spans.filter((span) => medianIn(flow, flows, span) >= much);
}

function medianIn({ sampling }: Channel, values: ArrayLike<number>, { from, to }: Span): number {
  const seen: number[] = [];
  for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i++) seen.push(values[i]);
  return median(seen);
}

const RECOVERED = 0.25; // of the way back
const AT_ONCE = 0.2; // of the stretch

/**
 * Whether pressure was lowest at once and on its way up from there: the tank was being filled, as after every start of a switched pump. In an
 * overdraw it falls first, and its return at the end is the draw's end.
 */
function isRecovery({ sampling }: Channel, values: ArrayLike<number>, { from, to }: Span, limit: number): boolean {
  const start = Math.min(indexAtOrAfter(sampling, from), values.length - 1);
  const end = Math.max(start, indexAtOrAfter(sampling, to) - 1);
  let lowest = start;
  for (let i = start; i <= end; i++) if (values[i] < values[lowest]) lowest = i;
  return lowest - start <= AT_ONCE * (end - start) && values[end] - values[lowest] > RECOVERED * (limit - values[lowest]);
}
