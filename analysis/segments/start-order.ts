import type { PumpState } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { median, quantiles } from "../numerics/order-statistics";
import { leastSquaresLine } from "../numerics/regression";
import { robustLine } from "../numerics/robust-line";
import { type PressureCurve, pressureCurve } from "./pressure-curve";

/** The fall before a start: how fast, Pa/s, and the pressure where it turns, Pa. */
type Fall = { readonly rate: number; readonly rateSd: number; readonly turned: number };

const LEAST_FALLS = 8;
/** Quartiles of the rates lie this many of their own standard deviations apart: falls that noise alone makes quick would seem to turn deep. */
const DIFFER = 4;
const CLEAR = 3; // standard deviations of the delay
const LONGEST = 20; // s from the restart pressure to water; a drive that needs longer is not one that waits and ramps up
/** The orders of one drive lie at one pressure: what the falls leave unexplained against what they had to explain. */
const LEFT = 0.7;

/** A drive may wait for some seconds under its restart pressure before it turns at all, and then runs up: which of both a delay was does not show. */
const MIDDLE = 0.5;

/**
 * Sets the starts of a drive, told by the turn of the pressure, back towards the instant at which the drive began to turn. Until the pump gives water the pressure goes on
 * falling, so that with a delay D from the passing of the restart pressure W to water a fall at rate r turns at W - r D: the quicker the fall, the deeper the turn. The line
 * through all starts gives W and D. The drive began to turn somewhere within D: its middle is out by half of it at most. As it was where the falls are too few or too
 * alike to tell, or where no delay stands out. A pump on a switch is across the line at once and has no such delay.
 * Derivation: p(t) = W - r (t - t0) from the passing at t0, turning at t0 + D.
 */
export function backToOrder(state: PumpState, record: LogRecord, faults: readonly LogFault[]): PumpState {
  const channel = mainChannel(record, "pressure");
  if (channel === null) return state;
  const starts = startsSeen(state);
  const delay = delayOf(fallsBefore(pressureCurve(channel, faults), starts));
  if (delay === null) return state;
  const runs = [...state.runs];
  for (const { index, fallsFrom } of starts)
    runs[index] = { ...runs[index], from: seconds(Math.max(runs[index].from - MIDDLE * delay, fallsFrom)) };
  return { ...state, runs };
}

/** A start within a stretch, and since when the pressure may have been falling before it: the stop before, or the begin of the stretch. */
type SeenStart = { readonly index: number; readonly at: Seconds; readonly fallsFrom: Seconds };

function startsSeen({ runs, observed }: PumpState): SeenStart[] {
  const seen: SeenStart[] = [];
  let s = 0;
  runs.forEach(({ from }, index) => {
    while (s < observed.length && observed[s].to < from) s++;
    if (s === observed.length || observed[s].from >= from) return;
    seen.push({ index, at: from, fallsFrom: seconds(Math.max(observed[s].from, runs[index - 1]?.to ?? Number.NEGATIVE_INFINITY)) });
  });
  return seen;
}

function delayOf(falls: readonly Fall[]): number | null {
  if (falls.length < LEAST_FALLS) return null;
  const rates = Float64Array.from(falls, ({ rate }) => rate);
  const [slow, quick] = quantiles(rates, [0.25, 0.75]);
  if (!(quick - slow > DIFFER * median(Float64Array.from(falls, ({ rateSd }) => rateSd)))) return null;
  const turned = Float64Array.from(falls, (fall) => fall.turned);
  const line = robustLine(rates, turned);
  const level = robustLine(
    rates.map((_, i) => i),
    turned,
  );
  if (line === null || level === null) return null;
  const delay = -line.slope;
  if (!(delay > CLEAR * line.slopeSd) || delay > LONGEST) return null;
  return line.residualSpread < LEFT * level.residualSpread ? delay : null;
}

const SAMPLES = 5; // of a fall at least
const CLEAR_FALL = 8; // noise spreads that a fall must span to have a rate
const LONGEST_FALL = 60; // samples
/** A tank that runs empty lets the pressure plunge at the end of its fall: the deeper it went the quicker the fall would seem. Of its height, or noise spreads. */
const STRAIGHT = { share: 0.08, noises: 3 };

function fallsBefore(pressure: PressureCurve, starts: readonly SeenStart[]): Fall[] {
  return starts.flatMap((start) => fallBefore(pressure, start) ?? []);
}

/** The straight part of a fall right before a start: as short as noise lets its rate be read. Null where a start has no fall of its own before it. */
function fallBefore({ values, sampling, noise }: PressureCurve, { at, fallsFrom }: SeenStart): Fall | null {
  const clear = CLEAR_FALL * noise;
  const begin = indexAtOrAfter(sampling, fallsFrom);
  const end = indexAtOrAfter(sampling, at) - 1;
  const isClear = (first: number) => values[first] - values[end] > clear;
  let first = end - SAMPLES + 1;
  while (first > begin && end - first < LONGEST_FALL && !isClear(first)) first--;
  if (first < begin || !isClear(first)) return null;
  const times = Float64Array.from({ length: end - first + 1 }, (_, k) => timeAt(sampling, first + k) - at);
  const line = leastSquaresLine(
    times,
    times.map((_, k) => values[first + k]),
  );
  if (line === null || !(line.slope < 0)) return null;
  const height = values[first] - values[end];
  if (line.residualSd > Math.max(STRAIGHT.share * height, STRAIGHT.noises * noise)) return null;
  return { rate: -line.slope, rateSd: line.slopeSd, turned: line.intercept };
}
