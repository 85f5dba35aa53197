import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { MeterPlace, PumpState, Run } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord, Sampling } from "../../shared/record/log-record";
import type { SiteFacts } from "../../shared/site/site-facts";
import { type Stretch, valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { scanInterval } from "../faults/scan-interval";
import { median, robustSpread } from "../numerics/order-statistics";
import { type DrawnWater, restsByWater } from "./falls-of-tank";
import { flowingBy } from "./flowing-by";
import { holdsWhileFlowing } from "./holds-while-flowing";
import { type Curve, type SawTooth, startOf, stopOf } from "./pressure-bends";
import { pressureCurve } from "./pressure-curve";
import { type OfRest, sawToothOf } from "./saw-tooth";
import { backToOrder } from "./start-order";
import { type Turn, turningPoints } from "./turning-points";
import { cumulativeVolume, volumeBetween } from "./volume";
import { SAMPLES_FOR_PRESSURE } from "./witness-interval";

/**
 * The pump's runs from the pressure's own saw-tooth: it starts where the fall turns, at much the same pressure each time. A fixed-speed pump stops where the
 * rise ends. A drive holds the pressure after the rise and stops some time before it falls again: then the stop is known only where a last step up
 * (a boost before sleep) or the fall itself shows it, and a run with a long quiet top is marked incomplete.
 * @returns null where no such saw-tooth is seen
 */
export function pumpFromPressure(record: LogRecord, faults: readonly LogFault[], site: SiteFacts, meter: MeterPlace): PumpState | null {
  const channel = mainChannel(record, "pressure");
  if (channel === null) return null;
  const curve = pressureCurve(channel, faults);
  const { values, sampling, stretches: observed } = curve;
  const flowing = meter.place === "after-tank" ? flowingBy(record, faults) : null;
  const holds = flowing !== null && site.pump === null && holdsWhileFlowing(values, sampling, observed, flowing);
  const water = meter.place === "before-tank" ? null : drawnWater(record, faults);
  const ofRest: OfRest = (turns) => (water === null ? null : restsByWater(values, sampling, turns, water, site.atmosphere.value));
  const saw = sawToothOf(curve, holds ? { ...site, pump: "variable-speed" } : site, ofRest);
  if (saw === null) return null;
  const rests = ofRest(observed.flatMap(({ first, last }) => turningPoints(values, first, last, saw.size)));
  const inRest = (low: Turn) => rests === null || rests.has(low.index);
  const runs = believed(
    observed.flatMap((stretch) => runsOfStretch(values, sampling, stretch, saw, inRest)),
    saw.noise,
  );
  const certainty = saw.regulated ? 0.6 : 0.75;
  const state: PumpState = {
    basis: "pressure",
    channel: channel.heading,
    mode: "switching",
    runs: saw.doubt === "waves" ? runs.map((run) => ({ ...run, complete: false })) : runs, // a wave's crest is no stop
    observed,
    separation: null,
    certainty,
    pumps: [],
    ...(saw.doubt === null ? {} : { doubt: doubtInWords(saw.doubt, sampling) }),
  };
  // falls that tell a delay speak for a drive, unless the facts say otherwise
  const isSwitch = !saw.regulated && (site.pump !== null || site.cutIn !== null);
  return isSwitch ? state : backToOrder(state, record, faults);
}

/** Why starts told by pressure are not certain. */
function doubtInWords(doubt: NonNullable<SawTooth["doubt"]>, sampling: Sampling): CannotTell {
  if (doubt !== "too-slow") return { id: "no-pump-state", about: "starts", detail: { missing: "speed", lows: doubt } };
  const interval = sampleInterval(sampling)?.median ?? 0;
  return { id: "sampling-too-slow", about: "starts", detail: { intervalS: interval, logEveryS: interval / SAMPLES_FOR_PRESSURE } };
}

/** A run with the height of the step up that told its end, Pa. */
type ToldRun = Run & { readonly lift: number | null };

const LEAST_BOOSTS = 5;
/** Share of the runs that end in a step up where a drive boosts before it sleeps, and how alike those steps are. */
const BOOST = { share: 0.7, spread: 0.15 };

/** A boost before sleep is a setting: it comes in nearly every run and is much the same each time. Other steps up are overshoots and tell no stop. */
function believed(told: readonly ToldRun[], noise: number): Run[] {
  const lifts = told.flatMap(({ lift }) => lift ?? []);
  const usual = median(lifts);
  const isBoost =
    lifts.length >= Math.max(LEAST_BOOSTS, BOOST.share * told.length) &&
    robustSpread(lifts, usual) < Math.max(2 * noise, BOOST.spread * usual);
  return told.map(({ from, to, complete, lift }) => ({ from, to, complete: complete && (lift === null || isBoost) }));
}

function runsOfStretch(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretch: Stretch,
  saw: SawTooth,
  inRest: (low: Turn) => boolean,
): ToldRun[] {
  const curve: Curve = { values, sampling, first: stretch.first, last: stretch.last };
  const turns = withFirstStart(
    values,
    stretch,
    saw,
    turningPoints(values, stretch.first, stretch.last, saw.size).filter(
      (turn) => isSwitch(turn, saw) && (turn.kind === "high" || inRest(turn)),
    ),
  );
  const runs: ToldRun[] = [];
  if (turns[0]?.kind === "high") {
    const { at } = stopOf(curve, stretch.first, turns[0].index, turns[1]?.index ?? stretch.last, saw);
    if (at > stretch.from && (saw.regulated || rises(values, stretch, turns[0].index, saw.noise)))
      runs.push({ from: stretch.from, to: at, complete: false, lift: null });
  }
  turns.forEach((turn, i) => {
    if (turn.kind === "high") return;
    let until = i + 1;
    while (until < turns.length && turns[until].kind !== "low") until++;
    if (until === turns.length) until = -1;
    const high = highestBetween(values, turn.index, until < 0 ? stretch.last : turns[until].index);
    // a switched pump that reached its stopping pressure has stopped, though the record ends before the pressure falls
    const reached = !saw.regulated && high < stretch.last - 2 && values[high] > saw.high - AT_START * (saw.high - saw.low);
    const falls = until >= 0 || turns.at(-1)?.kind === "high" || reached;
    const from = startOf(curve, turn.index, saw);
    const stop = falls ? stopOf(curve, turn.index, high, until < 0 ? stretch.last : turns[until].index, saw) : null;
    const to = stop === null ? stretch.to : stop.at;
    if (to > from) runs.push({ from, to, complete: stop?.sure ?? false, lift: stop?.lift ?? null });
  });
  return runs;
}

/** A switched pump that ran as the stretch began made the pressure rise. */
const rises = (values: ArrayLike<number>, { first }: Stretch, high: number, noise: number) =>
  values[high] > values[first] + 2 * CLEAR_FALL * noise;

const AT_START = 0.1; // of the swing
const CLEAR_FALL = 4; // noise spreads

/** A stretch that begins shortly before a start has no whole fall before it: a fall that ends at the starting pressure is one all the same. */
function withFirstStart(
  values: ArrayLike<number>,
  { first }: Stretch,
  { low, high, noise }: SawTooth,
  turns: readonly Turn[],
): readonly Turn[] {
  if (turns[0]?.kind !== "high") return turns;
  let lowest = first;
  for (let i = first; i < turns[0].index; i++) if (values[i] < values[lowest]) lowest = i;
  const fell = values[first] > values[lowest] + CLEAR_FALL * noise && lowest > first + 2;
  return fell && values[lowest] < low + AT_START * (high - low) ? [{ index: lowest, kind: "low" }, ...turns] : turns;
}

/** A start lies near the starting pressure; a low well above it is a dip that a running pump recovered from. Highs count whatever their height. */
const isSwitch = (turn: Turn, { mayStart }: SawTooth) => turn.kind === "high" || mayStart(turn.index);

function highestBetween(values: ArrayLike<number>, first: number, last: number): number {
  let highest = first;
  for (let i = first; i <= last; i++) if (values[i] > values[highest]) highest = i;
  return highest;
}

/** Water through the meter, m3, where it is not known to stand before the tank; null without a meter. */
function drawnWater(record: LogRecord, faults: readonly LogFault[]): DrawnWater | null {
  const flow = mainChannel(record, "flow");
  if (flow === null) return null;
  const values = valuesWithoutSpikes(flow, faults);
  const volume = cumulativeVolume(flow, values);
  const interval = sampleInterval(flow.sampling)?.median ?? scanInterval(flow.sampling) ?? 0;
  return { between: (from, to) => volumeBetween(flow.sampling, volume, values, from, to), interval };
}
