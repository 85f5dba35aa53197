import type { CyclingFinding } from "../../shared/findings/finding";
import { isCannotTell, type PumpState } from "../../shared/findings/segment";
import { type Span, spanLength } from "../../shared/findings/span";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { Measured } from "../../shared/units/measured";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { totalTime } from "../faults/observed";
import { allowedStarts } from "../hydraulics/allowed-starts";
import { poissonInterval } from "../numerics/distributions";
import { median } from "../numerics/order-statistics";
import { restsOf, startsOf } from "../segments/starts";
import type { Detector } from "./detector";

const HOUR = 3600;

/**
 * How the pump switched: starts, their rate and their busiest hour, runs and rests, and the pressures at which it started and stopped.
 * Runs and rests cut by a gap or an end of the record stay out of the medians. The busiest hour is a least value where a gap lies in it.
 * Wrong as far as the pump state is.
 */
export const cycling: Detector<"cycling"> = {
  kind: "cycling",
  detect({ segments: { pump }, site }) {
    const kind = "cycling" as const;
    if (isCannotTell(pump)) return { kind, state: "cannot-tell", because: [pump] };
    const starts = startsOf(pump);
    const finding: CyclingFinding = {
      kind,
      places: pump.runs,
      channels: [pump.channel],
      starts: starts.length,
      startsPerHour: rate(starts.length, totalTime(pump.observed)),
      ...busiestHour(starts),
      ...allowed(site),
      ...lengths(pump),
      cutIn: null,
      cutOut: null,
      startsByDraw: null,
      startsAtNight: null,
      expectedShortestCycle: null,
    };
    return { kind, state: "found", finding, limits: [] };
  },
};

/** Events per hour with the exact interval of a Poisson count (Garwood 1936); null where nothing was observed. */
function rate(count: number, time: Seconds): Measured | null {
  if (!(time > 0)) return null;
  const { low, high } = poissonInterval(count);
  const per = HOUR / time;
  return { value: count * per, low: low * per, high: high * per };
}

/** Most starts in any hour, borders included once: a window that begins with a start and ends before the hour is over. O(n) */
function busiestHour(starts: readonly Seconds[]): { peakStartsPerHour: number; peakHour: Span | null } {
  let most = 0;
  let from: Seconds | null = null;
  for (let first = 0, last = 0; last < starts.length; last++) {
    while (starts[last] - starts[first] >= HOUR) first++;
    if (last - first + 1 > most) {
      most = last - first + 1;
      from = starts[first];
    }
  }
  return { peakStartsPerHour: most, peakHour: from === null ? null : { from, to: seconds(from + HOUR) } };
}

/** The site's own limit, else motor practice for two poles: the fewest starts of the table, as most pump motors under 100 hp turn that fast. */
function allowed({ limits, motorPower }: SiteFacts): Pick<CyclingFinding, "allowedStartsPerHour" | "allowedStartsFrom"> {
  if (limits.startsPerHour !== null) return { allowedStartsPerHour: limits.startsPerHour.value, allowedStartsFrom: "given" };
  const byPower = motorPower === null ? null : allowedStarts(motorPower.value, 2);
  return { allowedStartsPerHour: byPower?.perHour ?? null, allowedStartsFrom: byPower === null ? null : "across-the-line" };
}

function lengths(pump: PumpState): { medianRun: Seconds | null; medianRest: Seconds | null } {
  const middle = (spans: readonly Span[]) => (spans.length === 0 ? null : seconds(median(spans.map(spanLength))));
  return { medianRun: middle(pump.runs.filter((run) => run.complete)), medianRest: middle(restsOf(pump)) };
}
