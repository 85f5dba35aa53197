import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { CyclingFinding } from "../../shared/findings/finding";
import { isCannotTell, type PumpState } from "../../shared/findings/segment";
import { type Span, spanLength } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogRecord } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { Measured } from "../../shared/units/measured";
import { type GaugePascal, toAbsolute } from "../../shared/units/pressure";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { totalTime } from "../faults/observed";
import { allowedStarts } from "../hydraulics/allowed-starts";
import { shortestCycleTime } from "../hydraulics/cycle-time";
import { drawdown } from "../hydraulics/drawdown";
import { poissonInterval } from "../numerics/distributions";
import { median } from "../numerics/order-statistics";
import { nightsOf } from "../segments/night";
import { restsOf, startsOf } from "../segments/starts";
import { startsByDraw } from "../segments/starts-by-draw";
import { type SwitchingPressures, switchingPressures } from "../segments/switching-pressures";
import { othersFellBetween, SAMPLES_FOR_PRESSURE, samplesOfRun, witnessInterval } from "../segments/witness-interval";
import type { Detector } from "./detector";

const HOUR = 3600;
const NIGHT = { from: 0, to: 5 }; // local hours in which hardly anybody draws water. Our own choice
const NO_PRESSURES: SwitchingPressures = { cutIn: null, cutOut: null };

/**
 * How the pump switched: starts, their rate and their busiest hour, runs and rests, and the pressures at which it started and stopped.
 * Runs and rests cut by a gap or an end of the record stay out of the medians. The busiest hour is a least value where a gap lies in it.
 * Wrong as far as the pump state is.
 */
export const cycling: Detector<"cycling"> = {
  kind: "cycling",
  detect(evidence) {
    const { record, faults, segments, site } = evidence;
    const { pump } = segments;
    const kind = "cycling" as const;
    if (isCannotTell(pump)) return { kind, state: "cannot-tell", because: [pump] };
    const starts = startsOf(pump);
    const pressure = mainChannel(record, "pressure");
    const { cutIn, cutOut } = pressure === null ? NO_PRESSURES : switchingPressures(pump, pressure, faults);
    const finding: CyclingFinding = {
      kind,
      places: pump.runs,
      channels: [pump.channel],
      starts: starts.length,
      startsPerHour: rate(starts.length, totalTime(pump.observed)),
      ...busiestHour(starts),
      ...allowed(site),
      ...lengths(pump),
      cutIn,
      cutOut,
      startsByDraw: startsByDraw(evidence, starts),
      startsAtNight: startsAtNight(record, starts),
      expectedShortestCycle: shortestCycle(site, cutIn?.value ?? null, cutOut?.value ?? null),
    };
    return { kind, state: "found", finding, limits: [...unseenStarts(record, pump), ...(pump.doubt === undefined ? [] : [pump.doubt])] };
  },
};

/** Where the runs that pressure alone tells hold few samples each, or runs and rests by any witness hardly two, others fell between two: the count is a least one. */
function unseenStarts(record: LogRecord, pump: PumpState): CannotTell[] {
  const interval = witnessInterval(record, pump);
  if (interval === null || (samplesOfRun(record, pump) >= SAMPLES_FOR_PRESSURE && !othersFellBetween(record, pump))) return [];
  return [{ id: "sampling-too-slow", about: "starts", detail: { intervalS: interval, logEveryS: interval / SAMPLES_FOR_PRESSURE } }];
}

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

function startsAtNight({ clock, duration }: LogRecord, starts: readonly Seconds[]): number | null {
  const nights = nightsOf(clock, duration, NIGHT.from, NIGHT.to);
  return nights === null || nights.length === 0 ? null : starts.filter((t) => nights.some(({ from, to }) => from <= t && t < to)).length;
}

/**
 * T = 4 V / Q with the tank and pump of the site facts and the switching pressures of the facts, else of the log; null where one is missing.
 * The water above the precharge only: below it the tank gives none.
 */
function shortestCycle(
  { tankVolume, precharge, pumpRatedFlow, cutIn, cutOut, restartPressure, setPressure, atmosphere }: SiteFacts,
  seenIn: GaugePascal | null,
  seenOut: GaugePascal | null,
): Seconds | null {
  const from = cutIn?.value ?? restartPressure?.value ?? seenIn;
  const to = cutOut?.value ?? seenOut ?? setPressure?.value ?? null;
  if (tankVolume === null || precharge === null || pumpRatedFlow === null || from === null || to === null || !(to > from)) return null;
  const abs = (p: GaugePascal) => toAbsolute(p, atmosphere.value);
  const water = drawdown(tankVolume.value, abs(precharge.value), abs(to), abs(from));
  return water > 0 ? shortestCycleTime(water, pumpRatedFlow.value) : null;
}

function lengths(pump: PumpState): { medianRun: Seconds | null; medianRest: Seconds | null } {
  const middle = (spans: readonly Span[]) => (spans.length === 0 ? null : seconds(median(spans.map(spanLength))));
  return { medianRun: middle(pump.runs.filter((run) => run.complete)), medianRest: middle(restsOf(pump)) };
}
