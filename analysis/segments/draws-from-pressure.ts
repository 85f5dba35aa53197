import type { CannotTell } from "../../shared/findings/cannot-tell";
import { type Draw, type DrawState, isCannotTell, type PumpState } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { quantiles } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { noiseOf } from "./pressure-noise";
import { restsOf } from "./starts";

/**
 * A fall that would take longer than this from the top of the pressure's range to its bottom is idle: so slow a draw and a leak look the same.
 * Our own choice; a tap on a usual tank empties it in some minutes, a leak that matters in tens of minutes.
 */
const SLOW_EMPTYING = 15 * 60;
const STEP = 5; // samples at least over which a slope is read
const LEAST_STEP = 5; // s
const STANDS_OUT = 3;

/**
 * Draws as the pressure shows them while the pump rests: stretches where it falls faster than a leak would let it. While the pump runs it holds
 * the pressure and nothing is known. No volume.
 */
export function drawsFromPressure(record: LogRecord, faults: readonly LogFault[], pump: PumpState | CannotTell): DrawState | CannotTell {
  const pressure = mainChannel(record, "pressure");
  if (pressure === null) return { id: "no-flow-channel", about: "leak", detail: { missing: "flow" } };
  if (isCannotTell(pump)) return { ...pump, about: "leak" };
  const values = valuesWithoutSpikes(pressure, faults);
  const [low, high] = quantiles(someValues(values), [0.01, 0.99]);
  const noise = noiseOf(values);
  const interval = sampleInterval(pressure.sampling)?.median ?? 1;
  const lag = Math.max(STEP, Math.ceil(LEAST_STEP / interval));
  const limit = Math.max((high - low) / SLOW_EMPTYING, (STANDS_OUT * noise * Math.SQRT2) / (lag * interval));
  const parts = restsOf(pump).map((rest) => partsOf(pressure, values, rest, lag, limit));
  return { basis: "pressure", draws: parts.flatMap((part) => part.draws), idle: parts.flatMap((part) => part.idle) };
}

function partsOf(
  { sampling }: Channel,
  values: ArrayLike<number>,
  rest: Span,
  lag: number,
  limit: number,
): { draws: Draw[]; idle: Span[] } {
  const draws: Draw[] = [];
  const idle: Span[] = [];
  const first = indexAtOrAfter(sampling, rest.from);
  let falling: boolean | null = null;
  let since: Seconds = rest.from;
  const close = (to: Seconds, whole: boolean) => {
    if (!(to > since)) return;
    if (falling) draws.push({ from: since, to, complete: whole && since > rest.from, volume: null, peakFlow: null });
    else idle.push({ from: since, to });
  };
  let last = first;
  for (let i = first + lag; i < values.length && timeAt(sampling, i) <= rest.to; i++) {
    last = i;
    const fall = (values[i - lag] - values[i]) / (timeAt(sampling, i) - timeAt(sampling, i - lag));
    if (Number.isNaN(fall)) continue;
    const now: boolean = falling ? fall > limit / 2 : fall > limit;
    if (falling !== null && now !== falling) {
      const middle = seconds((timeAt(sampling, i) + timeAt(sampling, i - lag)) / 2);
      close(middle, true);
      since = middle;
    }
    falling = now;
  }
  if (falling !== null) close(timeAt(sampling, last), false);
  return { draws, idle };
}
