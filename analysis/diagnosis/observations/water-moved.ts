import type { Span } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import { indexAtOrAfter } from "../../../shared/record/sampling";
import { found, pumpOf, type Sight } from "./sight";

/** A change of flow by this share of the highest moves the pressure of any tank and pump. */
const CHANGES = 0.3;
/** From the ends of a stretch in which the reading stood, s: what happens there may be why it began or ended. */
const WELL_INSIDE = 15;

const wellInside =
  ({ from, to }: Span) =>
  (at: number) =>
    at > from + WELL_INSIDE && at < to - WELL_INSIDE;

/** Whether something else than the pressure saw the pump start or stop while the reading stood. */
export function pumpSwitched(sight: Sight, span: Span): boolean {
  const pump = pumpOf(sight);
  const inside = wellInside(span);
  return pump !== null && pump.basis !== "pressure" && pump.runs.some((run) => inside(run.from) || inside(run.to));
}

/** Whether the pump started or stopped, or the flow changed much, while the reading stood: at rest or held by a good loop a pressure stands to the last digit. */
export function waterMoved(sight: Sight, span: Span): boolean {
  if (pumpSwitched(sight, span)) return true;
  const { from, to } = span;
  const flow = mainChannel(sight.record, "flow");
  const least = CHANGES * (found(sight, "pump-performance")?.peakFlow ?? 0);
  if (flow === null || !(least > 0)) return false;
  const end = indexAtOrAfter(flow.sampling, to - WELL_INSIDE);
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = indexAtOrAfter(flow.sampling, from + WELL_INSIDE); i < end; i++) {
    if (flow.values[i] < low) low = flow.values[i];
    if (flow.values[i] > high) high = flow.values[i];
  }
  return high - low > least;
}
