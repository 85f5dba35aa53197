import { median, quantile } from "../../numerics/order-statistics";
import { type Falls, fallsBeforeStarts, type Stretch } from "./falls-before-starts";
import { cutInOf, found, isFixedSpeed, type Looks, type Sight, setPressureOf } from "./sight";
import { chargeLevel } from "./tank";

/** A fall must stand out of noise by so many spreads of it, and be told by so many samples. */
const STANDS_OUT = 8;
const LEAST_SAMPLES = 6;
/** A pump on its way up lets the pressure drop a little longer, s and samples. */
const UNTIL_IT_TURNS = { seconds: 15, samples: 15 };
const LEAST_FALLS = 4;
/** The drop is so many times as fast as the fall right before it: below the charge only the pipes give, some hundredths of what a tank gives; draws that add up come to less. */
const STEEPER = 4;
/** Before a break the pressure must have fallen: looked at over so many times as long as the drop took, s at most. Else a draw has begun there. */
const BEFORE = { times: 10, least: 5, most: 60 };
const FELL = 3; // spreads of noise
/** Of the whole fall the tank must have given some before it broke: right at the stop a pump's last surge dies away. */
const GAVE = 0.12;
/** Breaks of one tank lie together: four fifths of them within this share of what the tank gave above. */
const TOGETHER = 0.3;
/** So many of the falls break: draws as they come add up to a break by chance now and then. */
const MOST = 0.5;

/** Where a fall broke, Pa, how far the pressure had come down to there, and where it stood when the pump started; `at` NaN where it did not break. */
type Break = { readonly at: number; readonly gave: number; readonly started: number };

/** The lowest sample after a fall's end within some seconds: the drop goes on while the pump runs up. */
function whereItTurns({ times, pressure }: Falls, { end }: Stretch): number {
  let lowest = end;
  for (let i = end; i < Math.min(pressure.length, end + UNTIL_IT_TURNS.samples); i++) {
    if (times[i] - times[end] > UNTIL_IT_TURNS.seconds || Number.isNaN(pressure[i])) break;
    if (pressure[i] < pressure[lowest]) lowest = i;
  }
  return lowest;
}

/** Where a fall bends most: the sample farthest above the line from its begin to its lowest, in pressure. */
function bendIn({ times, pressure }: Falls, first: number, last: number): number {
  const slope = (pressure[last] - pressure[first]) / (times[last] - times[first]);
  let [bend, most] = [first, 0];
  for (let i = first + 1; i < last; i++) {
    const above = pressure[i] - pressure[first] - slope * (times[i] - times[first]);
    if (above > most) [bend, most] = [i, above];
  }
  return bend;
}

function breakOf(falls: Falls, stretch: Stretch): Break | null {
  const { times, pressure, noise } = falls;
  const { first } = stretch;
  const last = whereItTurns(falls, stretch);
  if (last - first < LEAST_SAMPLES) return null;
  const top = median(Float64Array.of(pressure[first], pressure[first + 1], pressure[first + 2]));
  if (!(top - pressure[last] > STANDS_OUT * noise)) return null;
  const bend = bendIn(falls, first, last);
  const [drop, took] = [pressure[bend] - pressure[last], times[last] - times[bend]];
  const span = Math.min(BEFORE.most, Math.max(BEFORE.least, BEFORE.times * took));
  let before = bend;
  while (before > first && times[bend] - times[before] < span) before--;
  const fell = pressure[before] - pressure[bend];
  const gave = top - pressure[bend];
  const breaks =
    drop > STANDS_OUT * noise &&
    fell > FELL * noise &&
    drop / took > (STEEPER * fell) / (times[bend] - times[before]) &&
    gave > GAVE * (top - pressure[last]);
  return { at: breaks ? pressure[bend] : Number.NaN, gave, started: pressure[stretch.end] };
}

/** The break that the falls have in common, NaN where there is none; null with too few falls to tell. */
function commonBreak(falls: Falls): Break | null {
  const seen = falls.stretches.flatMap((stretch) => breakOf(falls, stretch) ?? []);
  if (seen.length < LEAST_FALLS) return null;
  const broken = seen.filter(({ at }) => !Number.isNaN(at));
  const at = (of: (b: Break) => number, share: number) => quantile(broken.map(of), share);
  const middle = { at: at((b) => b.at, 0.5), gave: at((b) => b.gave, 0.5), started: at((b) => b.started, 0.5) };
  const apart = at((b) => b.at, 0.9) - at((b) => b.at, 0.1);
  const common = broken.length >= Math.max(LEAST_FALLS, MOST * seen.length) && apart <= TOGETHER * middle.gave + 2 * falls.noise;
  return common ? middle : { ...middle, at: Number.NaN };
}

const heldBy = (sight: Sight): number | null => (isFixedSpeed(sight.site) ? cutInOf(sight) : setPressureOf(sight));

export const fallBreakLooks: Pick<Looks, "fall-breaks"> = {
  /**
   * Whether the slow fall of the pressure turns into a drop at one and the same pressure before the starts: there the tank is empty, at its charge. Above it
   * C = K/p^2, below it only the pipes give. A tank that has next to no gas is as stiff right after the stop as before the start and has no such place. By the
   * pressure alone; draws that begin or add up bend a fall too, but anywhere. Not asked where metered draws show where the tank empties.
   */
  "fall-breaks"(sight) {
    if (found(sight, "tank-charge")?.emptiesAt != null) return null;
    const falls = fallsBeforeStarts(sight, heldBy(sight));
    const seen = falls === null ? null : commonBreak(falls);
    if (falls === null || seen === null) return null;
    if (Number.isNaN(seen.at)) return { level: "nowhere", numbers: {} };
    const byFacts = chargeLevel(sight, seen.at);
    if (byFacts === null && !falls.witnessed) return null;
    const beforeStart = seen.at - seen.started > STANDS_OUT * falls.noise;
    const high = byFacts === null ? beforeStart : byFacts.level === "high";
    return { level: high ? "near-set" : "below", numbers: { breaksAt: seen.at, startsAt: seen.started } };
  },
};
