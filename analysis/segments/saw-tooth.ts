import type { Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { Stretch } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { median, quantiles } from "../numerics/order-statistics";
import { someValues } from "../numerics/some-values";
import { evenSwings, mayOnlyHunt } from "./even-swing";
import { heldLevel } from "./held-level";
import { holdsOneLevel } from "./holds-one-level";
import { isSmoothWave, keepsTime } from "./lobe-shape";
import type { SawTooth } from "./pressure-bends";
import type { PressureCurve } from "./pressure-curve";
import { mayBeDips } from "./rest-or-dip";
import { lowestAbout, restartLimit } from "./restart-limit";
import { type StartingLows, startingLows, withoutLows } from "./starting-lows";
import { type Turn, turningPoints } from "./turning-points";

/** A swing counts where it is this part of the usual distance between starts and stops; smaller ones are draws on a holding pump, or noise. */
const SWING_SHARE = 0.35;
const LEAST_SWING = 10_000; // Pa; no switch or drive is set closer. Common practice, no source
/** A low no further above the usual start than this part of the swing is one too. */
const START_WITHIN = 0.25;

/** The lows that end a rest, by the water drawn; null where that does not tell. */
export type OfRest = (turns: readonly Turn[]) => ReadonlySet<number> | null;

export function sawToothOf({ values, sampling, stretches, noise }: PressureCurve, site: SiteFacts, ofRest: OfRest): SawTooth | null {
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
  const limit = restartLimit(kept, top, noise, site);
  const isOut = ({ index }: Turn) => (rests !== null && !rests.has(index)) || (limit !== null && lowestAbout(values, index, noise) > limit);
  const all = rests === null && limit === null ? whole : withoutLows(values, finest, isOut);
  const chosen = startingLows(
    { values, kept, noise },
    all,
    all === whole ? turnsOf(values, Math.max(SWING_SHARE * (top - usual), smallest)) : all,
    site.pump === "fixed-speed",
    (low, high, starts) => !isRegulated(values, sampling, stretches, { low, high, noise }, starts, site),
  );
  const usable = chosen ?? (limit === null ? null : lowsAsTold(values, all));
  if (usable === null) return null;
  const { turns, low, high, below } = usable;
  if (
    isSmoothWave(values, turns, (low + high) / 2) ||
    mayOnlyHunt(values, all, high - low, site.pump, (turn) => !(values[turn.index] > below))
  )
    return null;
  const size = Math.max(SWING_SHARE * (high - low), smallest);
  const starts = turns.filter(({ kind }) => kind === "low").length;
  const regulated = isRegulated(values, sampling, stretches, { low, high, noise }, starts, site);
  const dips = regulated && rests === null && mayBeDips(values, sampling, turns, heldLevel(kept, (low + high) / 2, high, noise));
  if (regulated && (medianCycle(turns, sampling) < QUICKEST_CYCLE || (dips && limit === null))) return null;
  const startsBelow = Math.min(below, low + START_WITHIN * (high - low));
  const held = regulated ? Math.min(high, heldLevel(kept, startsBelow, high, noise)) : high;
  const mayStart = (index: number) => (limit === null ? values[index] < startsBelow : lowestAbout(values, index, noise) <= limit);
  const others = withoutLows(values, finest, ({ index }) => mayStart(index));
  const isTold = !regulated && (site.pump !== null || site.cutIn !== null); // a pump on a switch, by the site's facts
  const missesSome = limit === null && rests === null && regulated && areRests(values, sampling, others, held, starts);
  return {
    size,
    low,
    high,
    held,
    noise,
    regulated,
    mayStart,
    doubt: isTold ? null : (doubtOf(values, sampling, turns, { regulated, dips, missesSome }) ?? doubtByLimit(values, turns, limit, held)),
  };
}

/** So many of the lows, and at least so many, are no chance. */
const SOME = { share: 0.05, least: 3 };
const areSome = (count: number, of: number) => count >= Math.max(SOME.least, SOME.share * of);

/** Whether lows that are taken for no starts end falls as a resting tank makes them: a second restart pressure (by night, after a change), or an empty tank among full ones. */
function areRests(values: ArrayLike<number>, sampling: Sampling, turns: readonly Turn[], held: number, starts: number): boolean {
  const lows = turns.filter(({ kind }) => kind === "low").length;
  return areSome(lows, starts) && !mayBeDips(values, sampling, turns, held);
}

/** What speaks against the starts that the pressure of a drive alone tells: lows passed between two samples, some that come to and fro as a wave does
 * (a switch may fill and draw alike too, but not at one rhythm), others left out. */
function doubtOf(
  values: ArrayLike<number>,
  sampling: Sampling,
  turns: readonly Turn[],
  { regulated, dips, missesSome }: { readonly regulated: boolean; readonly dips: boolean; readonly missesSome: boolean },
): SawTooth["doubt"] {
  if ((sampleInterval(sampling)?.median ?? 0) > QUICKEST_CYCLE) return "too-slow";
  const { seen, even } = evenSwings(values, turns, () => true);
  if (dips || (areSome(even, seen) && (regulated || keepsTime(turns)))) return "waves";
  return missesSome ? "others" : null;
}

/** Where the restart pressure is told: lows that only may have come down to it between two samples, or lie as far under it as the held pressure lies over it. */
function doubtByLimit(values: ArrayLike<number>, turns: readonly Turn[], limit: number | null, held: number): SawTooth["doubt"] {
  if (limit === null) return null;
  const lows = turns.filter(({ kind }) => kind === "low").map(({ index }) => values[index]);
  if (areSome(lows.filter((low) => low > limit).length, lows.length)) return "too-slow";
  return areSome(lows.filter((low) => low < limit - (held - limit)).length, lows.length) ? "overdrawn" : null;
}

/** Turns whose lows are starts by the site's own restart pressure, however deep a draw took them. */
function lowsAsTold(values: ArrayLike<number>, turns: readonly Turn[]): StartingLows | null {
  const ofKind = (kind: Turn["kind"]) => turns.flatMap((turn) => (turn.kind === kind ? [values[turn.index]] : []));
  const [lows, highs] = [ofKind("low"), ofKind("high")];
  return lows.length === 0 || highs.length === 0
    ? null
    : { turns, low: quantiles(lows, [0.75])[0], high: median(highs), below: Number.POSITIVE_INFINITY };
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
  if (site.restartPressure !== null) return true; // a switch has none
  const size = Math.max(PARTIAL_SHARE * (high - low), 8 * noise);
  const turns = stretches.flatMap(({ first, last }) => turningPoints(values, first, last, size));
  const partial = turns.filter((turn) => turn.kind === "low" && values[turn.index] > low + PARTIAL_ABOVE * (high - low)).length;
  return partial > starts / 3 || holdsOneLevel(values, sampling, stretches, high - low, noise);
}
