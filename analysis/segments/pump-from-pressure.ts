import type { MeterPlace, PumpState, Run } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { LogRecord, Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import type { SiteFacts } from "../../shared/site/site-facts";
import { type Stretch, valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { scanInterval } from "../faults/scan-interval";
import { median, quantiles, robustSpread } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { mayOnlyHunt } from "./even-swing";
import { type DrawnWater, restsByWater } from "./falls-of-tank";
import { meteredWater } from "./flowing-by";
import { heldLevel } from "./held-level";
import { holdsOneLevel } from "./holds-one-level";
import { holdsWhileFlowing } from "./holds-while-flowing";
import { isSmoothWave } from "./lobe-shape";
import { type Curve, type SawTooth, startOf, stopOf } from "./pressure-bends";
import { type PressureCurve, pressureCurve } from "./pressure-curve";
import { mayBeDips } from "./rest-or-dip";
import { backToOrder } from "./start-order";
import { startingLows, withoutLows } from "./starting-lows";
import { type Turn, turningPoints } from "./turning-points";
import { cumulativeVolume, volumeBetween } from "./volume";

/** A swing counts where it is this part of the usual distance between starts and stops; smaller ones are draws on a holding pump, or noise. */
const SWING_SHARE = 0.35;
const LEAST_SWING = 10_000; // Pa; no switch or drive is set closer. Common practice, no source
/** A low no further above the usual start than this part of the swing is one too. */
const START_WITHIN = 0.25;

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
  const drawn = meter.place === "after-tank" ? meteredWater(record, faults) : null;
  const holds = drawn !== null && site.pump === null && holdsWhileFlowing(values, sampling, observed, drawn.flows);
  const water = meter.place === "before-tank" ? null : drawnWater(record, faults);
  const ofRest = (turns: readonly Turn[]) => (water === null ? null : restsByWater(values, sampling, turns, water, site.atmosphere.value));
  const saw = sawToothOf(curve, holds ? { ...site, pump: "variable-speed" } : site, ofRest);
  if (saw === null) return null;
  const rests = ofRest(observed.flatMap(({ first, last }) => turningPoints(values, first, last, saw.size)));
  const inRest = (low: Turn) => rests === null || rests.has(low.index);
  const runs = believed(
    observed.flatMap((stretch) => runsOfStretch(values, sampling, stretch, saw, drawn, inRest)),
    saw.noise,
  );
  const certainty = saw.regulated ? 0.6 : 0.75;
  const state: PumpState = {
    basis: "pressure",
    channel: channel.heading,
    mode: "switching",
    runs,
    observed,
    separation: null,
    certainty,
    pumps: [],
  };
  return saw.regulated ? backToOrder(state, record, faults) : state;
}

/** The lows that end a rest, by the water drawn; null where that does not tell. */
type OfRest = (turns: readonly Turn[]) => ReadonlySet<number> | null;

function sawToothOf({ values, sampling, stretches, noise }: PressureCurve, site: SiteFacts, ofRest: OfRest): SawTooth | null {
  const kept = someValues(values);
  if (kept.length < 10) return null;
  const [bottom, floor, usual, top] = quantiles(kept, [0.005, 0.01, 0.1, 0.995]);
  const smallest = Math.max(LEAST_SWING, 8 * noise);
  const coarse = Math.max(SWING_SHARE * (top - bottom), smallest);
  if (coarse > 0.8 * (top - bottom)) return null;
  const seen = withoutPlunges(values, floor, coarse);
  const turnsOf = (curve: ArrayLike<number>, least: number) =>
    stretches.flatMap(({ first, last }) => turningPoints(curve, first, last, least));
  const shallow = turnsOf(seen, coarse);
  const whole = shallow.length > 0 ? shallow : turnsOf(values, coarse); // hardly any time under the starting pressure: the plunges are all there is
  const finest = turnsOf(values, smallest);
  const rests = ofRest(finest);
  const all = rests === null ? whole : withoutLows(values, finest, ({ index }) => !rests.has(index));
  const chosen = startingLows(
    { values, kept, noise },
    all,
    rests === null ? turnsOf(values, Math.max(SWING_SHARE * (top - usual), smallest)) : all,
    site.pump === "fixed-speed",
    (low, high, starts) => !isRegulated(values, sampling, stretches, { low, high, noise }, starts, site),
  );
  if (chosen === null) return null;
  const { turns, low, high, below } = chosen;
  if (
    isSmoothWave(values, turns, (low + high) / 2) ||
    mayOnlyHunt(values, all, high - low, site.pump, (turn) => !(values[turn.index] > below))
  )
    return null;
  const size = Math.max(SWING_SHARE * (high - low), smallest);
  const starts = turns.filter(({ kind }) => kind === "low").length;
  const regulated = isRegulated(values, sampling, stretches, { low, high, noise }, starts, site);
  if (
    regulated &&
    (medianCycle(turns, sampling) < QUICKEST_CYCLE ||
      (rests === null && mayBeDips(values, sampling, turns, heldLevel(kept, (low + high) / 2, high, noise))))
  )
    return null;
  const startsBelow = Math.min(below, low + START_WITHIN * (high - low));
  return {
    size,
    low,
    high,
    held: regulated ? Math.min(high, heldLevel(kept, startsBelow, high, noise)) : high,
    noise,
    regulated,
    startsBelow,
  };
}

/** A drive waits before it sleeps and runs up before it gives: what turns faster than this is its loop. Common practice, no source. */
const QUICKEST_CYCLE = 10; // s

function medianCycle(turns: readonly Turn[], sampling: Sampling): number {
  const lows = turns.filter(({ kind }) => kind === "low").map(({ index }) => timeAt(sampling, index));
  return median(Float64Array.from({ length: Math.max(0, lows.length - 1) }, (_, i) => lows[i + 1] - lows[i]));
}

/** A tank that runs empty lets the pressure plunge for a sample or two before the pump has it again: held up to where one per cent of the record lies. */
function withoutPlunges(values: ArrayLike<number>, floor: number, size: number): ArrayLike<number> {
  let lowest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i++) if (values[i] < lowest) lowest = values[i];
  if (floor - lowest < size / 2) return values;
  const held = new Float64Array(values.length);
  for (let i = 0; i < values.length; i++) held[i] = Math.max(values[i], floor);
  return held;
}

const PARTIAL_SHARE = 0.06; // of the swing: smaller turns are noise
const PARTIAL_ABOVE = 0.3; // of the swing, above its foot

/**
 * Whether a drive holds the pressure: then it recovers from dips that never reach the starting pressure, or stands still at one level,
 * which a pump on a switch cannot do.
 * The site facts decide where they are given.
 */
function isRegulated(
  values: ArrayLike<number>,
  sampling: Sampling,
  stretches: readonly Stretch[],
  { low, high, noise }: Pick<SawTooth, "low" | "high" | "noise">,
  starts: number,
  site: SiteFacts,
): boolean {
  if (site.pump !== null) return site.pump === "variable-speed";
  if (site.cutIn !== null && site.cutOut !== null) return false;
  const size = Math.max(PARTIAL_SHARE * (high - low), 8 * noise);
  const turns = stretches.flatMap(({ first, last }) => turningPoints(values, first, last, size));
  const partial = turns.filter((turn) => turn.kind === "low" && values[turn.index] > low + PARTIAL_ABOVE * (high - low)).length;
  return partial > starts / 3 || holdsOneLevel(values, sampling, stretches, high - low, noise);
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
  drawn: Curve["drawn"],
  inRest: (low: Turn) => boolean,
): ToldRun[] {
  const curve: Curve = { values, sampling, first: stretch.first, last: stretch.last, drawn };
  const turns = withFirstStart(
    values,
    stretch,
    saw,
    turningPoints(values, stretch.first, stretch.last, saw.size).filter(
      (turn) => isSwitch(values, turn, saw) && (turn.kind === "high" || inRest(turn)),
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
const isSwitch = (values: ArrayLike<number>, turn: Turn, { startsBelow }: SawTooth) =>
  turn.kind === "high" || values[turn.index] < startsBelow;

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
