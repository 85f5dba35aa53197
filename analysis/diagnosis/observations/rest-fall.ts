import { isCannotTell } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { idleRests } from "../../segments/idle-rests";
import { levelStep, noiseOf } from "../../segments/pressure-noise";
import { traceIn } from "./at-work";
import type { Sight } from "./sight";

const LEAST_SAMPLES = 9; // three in each third
const LEAST_RESTS = 3; // one or two may hold a draw that no one metered
/** The slower fifth of the rests must lose at least this share of what the usual one loses: a leak is there in every rest. */
const IN_EVERY = 0.5;
/**
 * Without a meter nobody knows that nothing was drawn: taps differ from rest to rest, one hole at about one pressure does not. So many rests at least, and from the
 * slower to the faster fifth of them no more than this share of the usual fall. Our own choice.
 */
const ALIKE = { rests: 20, spread: 0.4 };
/** The last third against the first: warm gas that cools, or a pipe that settles, loses ever less. */
const STILL = 0.4;
const CLEARLY = 3; // standard errors

/** Rise of 1/p(abs) in the earlier and the later half of a rest, 1/(Pa s), and what noise makes of either. */
type Fall = { readonly early: number; readonly late: number; readonly error: number };

function fallOf(trace: Trace, { from, to }: Span, atmosphere: number, noise: number): Fall | null {
  const [first, end] = [sampleAt(trace, from), sampleAt(trace, to)];
  if (end - first < LEAST_SAMPLES) return null;
  const third = (end - first) / 3;
  const [a, b, c] = [0, 1, 2].map((k) =>
    meanInverse(trace, Math.floor(first + k * third), Math.floor(first + (k + 1) * third), atmosphere),
  );
  const time = (to - from) / 3;
  const error = ((noise * a * a) / time) * Math.sqrt(2 / third);
  return { early: (b - a) / time, late: (c - b) / time, error };
}

function meanInverse({ pressure }: Trace, first: number, end: number, atmosphere: number): number {
  let [sum, n] = [0, 0];
  for (let i = first; i < end; i++) {
    if (Number.isNaN(pressure[i])) continue;
    sum += 1 / (pressure[i] + atmosphere);
    n++;
  }
  return sum / n;
}

/**
 * Whether the pressure falls in every rest without a draw, and goes on falling. A leak does: q = K d(1/p)/dt hardly changes within a rest, and is there at
 * each. Gas that the pump's work has warmed cools, e^(-t/T) with T of a minute or some, and then stands; a small draw that the meter does not see
 * comes in one rest and not in the next. Null with fewer than three rests to see it in, or where noise hides it; without a meter also with few rests, or such as differ.
 */
export function fallGoesOn(sight: Sight): boolean | null {
  const trace = traceIn(sight);
  const { pump, draw } = sight.segments;
  if (trace === null || isCannotTell(pump) || isCannotTell(draw)) return null;
  const noise = Math.max(noiseOf(trace.pressure), levelStep(trace.pressure) / Math.sqrt(12));
  const falls = idleRests(pump, draw, 2 * trace.interval).flatMap((rest) => fallOf(trace, rest, sight.site.atmosphere.value, noise) ?? []);
  if (falls.length < LEAST_RESTS) return null;
  const at = (of: (fall: Fall) => number, share: number) => quantile(falls.map(of), share);
  const whole = ({ early, late }: Fall) => (early + late) / 2;
  const slower = at(whole, 0.2);
  const [usual, doubt] = [at(whole, 0.5), CLEARLY * at(({ error }) => error, 0.5)];
  if (!(usual > doubt)) return null;
  if (draw.basis === "pressure" && (falls.length < ALIKE.rests || at(whole, 0.8) - slower > ALIKE.spread * usual)) return null;
  const inEvery = slower > IN_EVERY * usual && slower > doubt;
  return inEvery && at(({ late }) => late, 0.2) > STILL * at(({ early }) => early, 0.5);
}
