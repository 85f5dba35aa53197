import { isCannotTell, type Segments } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { Seconds } from "../../shared/units/quantity";
import { valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { quantile } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { cumulativeVolume, volumeBetween } from "./volume";

const BEFORE = 10; // s before a start over which the draw is read
/** A quarter of the pump's flow: below it the pump runs against a nearly closed system. Our own choice. */
const LARGE = 0.25;

type Counts = { readonly none: number; readonly small: number; readonly large: number };

/**
 * What was drawn just before each start: nothing (or the base flow only), a small draw, or a large one of a quarter of the pump's flow or more. The
 * pump's flow is that of the site facts, else the highest flow of the record. Null unless a meter after the tank shows the draws.
 */
export function startsByDraw(
  { record, faults, segments, site }: { record: LogRecord; faults: readonly LogFault[]; segments: Segments; site: SiteFacts },
  starts: readonly Seconds[],
): Counts | null {
  const { draw } = segments;
  const flow = mainChannel(record, "flow");
  if (flow === null || isCannotTell(draw) || draw.basis !== "flow") return null;
  const values = valuesWithoutSpikes(flow, faults);
  const volume = cumulativeVolume(flow, values);
  const most = site.pumpRatedFlow?.value ?? quantile(someValues(values), 0.999);
  const span = Math.max(BEFORE, 2 * (sampleInterval(flow.sampling)?.median ?? 0));
  const counts = { none: 0, small: 0, large: 0 };
  let k = 0;
  for (const start of starts) {
    while (k < draw.draws.length && draw.draws[k].to < start - span) k++;
    const drawing = k < draw.draws.length && draw.draws[k].from < start;
    const mean = volumeBetween(flow.sampling, volume, values, Math.max(0, start - span), start) / span;
    if (!drawing) counts.none++;
    else if (mean < LARGE * most) counts.small++;
    else counts.large++;
  }
  return counts;
}
