import { mainChannel } from "../../../shared/record/find-channel";
import { timesOf } from "../../../shared/record/sampling";
import type { Trace } from "../../model/fit/trace";
import { quantile } from "../../numerics/order-statistics";
import { isWithin } from "../../segments/is-within";
import { lengthOf, type Stretch, stretchesWhere, traceIn, valuesIn } from "./at-work";
import { heldElsewhere } from "./held-elsewhere";
import { cutInOf, isFixedSpeed, type Looks, levelFor, pumpOf, type Sight, setPressureOf } from "./sight";

/** Pressure this far under its set pressure is no band of any drive: share of set pressure. */
const SHORT = 0.06;
/** After a start the motor runs up and the tank is filled: s that belong to the start. */
const STARTING = 15;
/** A loop that keeps up has answered by then: ramps take 12 s at most, and a well-set loop some of its integral times of 4 to 8 s. */
const ANSWERED = 25;
/** A drive this near its highest speed has no more to give. */
const AT_END = 0.96;
/**
 * So long a stretch is short on average where the loop is too slow, and so long all of them together, s: a drive with long delays is set with some 24 s of integral
 * time, and has an error down to an eighth in two of those. A fall deeper than that is another matter.
 */
const TOO_SLOW = { each: 50, together: 100 };
/** Of the flow while pressure was low: less than that on its return, and the draw's end brought it back, not the pump. */
const STILL_DRAWN = 0.8;

type Low = { readonly late: number; readonly ended: number; readonly stretches: readonly Stretch[] };

/** Stretches of a run, past its start, with the pressure short of `set` for longer than a sound loop leaves it. */
function shortStretches(sight: Sight, trace: Trace, set: number): Stretch[] {
  const { times, pressure, run, runs } = trace;
  const lower = heldElsewhere(sight);
  const isShort = (i: number) => pressure[i] < (1 - SHORT) * set && !isWithin(lower, times[i]);
  return stretchesWhere(trace, ANSWERED, (i) => run[i] >= 0 && times[i] - runs[run[i]].from > STARTING && isShort(i));
}

/** Seconds of short pressure with speed to spare, and at the end of it. */
function bySpeed(trace: Trace, speed: ArrayLike<number>, stretches: readonly Stretch[]): Low {
  let [late, ended] = [0, 0];
  for (const s of stretches) {
    const fast = valuesIn(speed, [s]).filter((v) => v >= AT_END).length / (s.last - s.first + 1);
    late += (1 - fast) * lengthOf(trace, s);
    ended += fast * lengthOf(trace, s);
  }
  return { late, ended, stretches };
}

/** Without speed: pressure that comes back while as much is drawn was late; one that comes back with the draw's end was the pump's limit. */
function byFlow(trace: Trace, flow: ArrayLike<number>, stretches: readonly Stretch[]): Low {
  let [late, ended] = [0, 0];
  for (const s of stretches) {
    const drawn = quantile(valuesIn(flow, [s]), 0.5);
    const next = Math.min(trace.times.length - 1, s.last + 2);
    const goesOn = trace.run[next] === trace.run[s.last] && flow[next] >= STILL_DRAWN * drawn;
    if (goesOn) late += lengthOf(trace, s);
    else ended += lengthOf(trace, s);
  }
  return { late, ended, stretches };
}

/** Lowest pressure held for half a minute of a run, against what is to be held. */
const SUNK_FOR = 30; // s

/** Times, pressure and the run of each sample. A pressure under what makes the pump start is one of a run, also where nothing tells of runs: then all is one. */
type Sinking = Pick<Trace, "times" | "pressure" | "run" | "interval">;

/** The whole record as one run. */
function recordAsRun(sight: Sight): Sinking | null {
  const channel = mainChannel(sight.record, "pressure");
  if (channel === null || channel.sampling.kind === "on-change" || channel.values.length < 60) return null;
  const times = timesOf(channel.sampling);
  const interval = (times[times.length - 1] - times[0]) / (times.length - 1);
  return { times, pressure: channel.values, run: new Int32Array(times.length), interval };
}

const lowestIn = (sight: Sight, seen: Sinking | null): number | null => {
  const lower = heldElsewhere(sight);
  if (seen === null || lower.length === 0) return seen === null ? null : sunkTo(seen);
  return sunkTo({ ...seen, run: seen.run.map((run, i) => (isWithin(lower, seen.times[i]) ? -1 : run)) });
};

/** Runs that were read off the pressure or the flow leave out just those times in which both are gone: hardly any pressure is none of a rest either. */
function lowestHeld(sight: Sight, held: number): number | null {
  const trace = traceIn(sight);
  const inRuns = lowestIn(sight, trace ?? recordAsRun(sight));
  const basis = pumpOf(sight)?.basis;
  if (trace === null || (basis !== "pressure" && basis !== "flow")) return inRuns;
  const anywhere = lowestIn(sight, recordAsRun(sight));
  return anywhere !== null && anywhere < SUNK[1] * held ? anywhere : inRuns;
}

function sunkTo({ times, pressure, run, interval }: Sinking): number | null {
  const long = Math.max(SUNK_FOR, 2 * interval); // never a single reading
  let lowest = Number.NaN;
  const queue: number[] = []; // indexes with falling pressure: the highest of the last half minute stands first
  let from = 0;
  for (let i = 0; i < times.length; i++) {
    if (run[i] < 0 || (i > 0 && run[i] !== run[i - 1]) || Number.isNaN(pressure[i])) {
      queue.length = 0;
      from = i + (run[i] < 0 || Number.isNaN(pressure[i]) ? 1 : 0);
      if (run[i] < 0 || Number.isNaN(pressure[i])) continue;
    }
    while (queue.length > 0 && pressure[queue[queue.length - 1]] <= pressure[i]) queue.pop();
    queue.push(i);
    while (times[queue[0]] < times[i] - long) queue.shift();
    if (times[i] - times[from] >= long && !(pressure[queue[0]] >= lowest)) lowest = pressure[queue[0]];
  }
  return Number.isNaN(lowest) ? null : lowest;
}

const heldBy = (sight: Sight): number | null => (isFixedSpeed(sight.site) ? cutInOf(sight) : setPressureOf(sight));

/** Edges of the sunk pressure, shares of what is to be held. A draw that leaves a tenth would take five times the pump's rating at full pressure: 1.6 / sqrt(0.1). */
const SUNK = [0.1, 0.35, 0.85] as const;

/** Lowest pressure held for half a minute, and what is to be held, Pa; null where either is not known. */
export function sunkPressure(sight: Sight): { readonly lowest: number; readonly held: number } | null {
  const held = heldBy(sight);
  const lowest = held === null || !(held > 0) ? null : lowestHeld(sight, held);
  return lowest === null || held === null ? null : { lowest, held };
}

/** Of the pump's rating: less is next to nothing, and about as much or more is all that can be asked of it. */
const NEXT_TO_NOTHING = 0.05;
const ALL = 0.9;
const SLOWEST_SAMPLING = 60; // s

/** Highest flow while the pressure was held, past the start of a run; NaN where it never was. */
function mostWhileHeld(trace: Trace, flow: ArrayLike<number>, held: number): number {
  const { times, pressure, run, runs } = trace;
  const whileHeld = new Float64Array(times.length);
  for (let i = 0; i < times.length; i++) {
    const counts = run[i] >= 0 && times[i] - runs[run[i]].from > STARTING && pressure[i] >= (1 - SHORT) * held;
    whileHeld[i] = counts ? flow[i] : Number.NaN;
  }
  return quantile(whileHeld, 0.98);
}

export const answerLooks: Pick<Looks, "answer-to-draw" | "sunk-pressure" | "flow-when-short"> = {
  /**
   * How much water the pump gives while the pressure is short: over its rating, and more is drawn than it can give; less, and it is weak or late;
   * none, and it has nothing to give. Without a rating the most that flowed while the pressure was held stands for it, at half.
   */
  "flow-when-short"(sight) {
    const [trace, held] = [traceIn(sight), heldBy(sight)];
    if (trace?.flow == null || held === null || !(held > 0) || trace.interval > SLOWEST_SAMPLING) return null;
    const stretches = shortStretches(sight, trace, held);
    if (stretches.reduce((sum, s) => sum + lengthOf(trace, s), 0) < 2 * ANSWERED) return null;
    const flow = quantile(valuesIn(trace.flow, stretches), 0.5);
    const rated = sight.site.pumpRatedFlow?.value ?? 2 * mostWhileHeld(trace, trace.flow, held);
    if (!(rated > 0) || Number.isNaN(flow)) return null;
    return { level: levelFor(flow / rated, [NEXT_TO_NOTHING, ALL], ["none", "some", "all"]), numbers: { flow, ratio: flow / rated } };
  },
  "answer-to-draw"(sight) {
    const [trace, set] = [traceIn(sight), setPressureOf(sight)];
    if (trace === null || isFixedSpeed(sight.site) || set === null || !(set > 0) || trace.interval > ANSWERED / 2) return null;
    if (trace.speed === null && trace.flow === null) return null;
    const stretches = shortStretches(sight, trace, set);
    const { late, ended } =
      trace.speed !== null ? bySpeed(trace, trace.speed, stretches) : byFlow(trace, trace.flow ?? new Float64Array(0), stretches);
    const numbers = { late, ended, setPressure: set, times: stretches.length };
    if (late + ended < 2 * ANSWERED) return { level: "keeps-up", numbers };
    if (late <= ended) return { level: "at-its-end", numbers };
    const tooSlow = late >= TOO_SLOW.each * stretches.length && late >= TOO_SLOW.together;
    return { level: tooSlow ? "late" : "keeps-up", numbers };
  },
  "sunk-pressure"(sight) {
    const sunk = sunkPressure(sight);
    if (sunk === null) return null;
    const ratio = sunk.lowest / sunk.held;
    return { level: levelFor(ratio, SUNK, ["nought", "gone", "low", "held"]), numbers: { ...sunk, ratio } };
  },
};
