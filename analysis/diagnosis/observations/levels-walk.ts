import type { Run } from "../../../shared/findings/segment";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { median, quantile } from "../../numerics/order-statistics";
import { traceIn } from "./at-work";
import { type Looks, pumpOf } from "./sight";

const LEAST_RUNS = 8;
const LEAST_RECORD = 4 * 3600; // s
/** The levels of a day wander with draws and temperature; a walk goes further than this share of what is held. */
const A_WALK = 0.08;
/** Of all pairs of runs so many more go one way than the other (Kendall 1938). A single step in the middle, as of a setback, comes to half of the pairs. */
const ONE_WAY = 0.7;
/** Start, stop and held level walk together: the least of them goes at least this share of the farthest. */
const TOGETHER = 0.5;

/** Where a run began, what it mostly held and where it ended, Pa. */
type Levels = { readonly starts: number; readonly holds: number; readonly stops: number };

function levelsOf(trace: Trace, run: Run): Levels | null {
  const { pressure, times } = trace;
  const [first, end] = [sampleAt(trace, run.from), Math.min(times.length, sampleAt(trace, run.to))];
  const within: number[] = [];
  for (let i = first; i < end; i++) if (!Number.isNaN(pressure[i])) within.push(pressure[i]);
  if (within.length < 3) return null;
  return { starts: Math.min(...within.slice(0, 3)), holds: quantile(within, 0.5), stops: median(Float64Array.from(within.slice(-3))) };
}

/** Surplus of pairs that rise over those that fall, as a share of all: -1 to 1. O(n^2) in the number of runs, of which some hundreds are taken. */
function oneWay(values: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) for (let j = i + 1; j < values.length; j++) sum += Math.sign(values[j] - values[i]);
  return sum / ((values.length * (values.length - 1)) / 2);
}

/** From the first quarter of the runs to the last one. */
const changeOf = (values: readonly number[]): number => {
  const quarter = Math.max(2, values.length >> 2);
  return median(Float64Array.from(values.slice(-quarter))) - median(Float64Array.from(values.slice(0, quarter)));
};

const MOST_RUNS = 300;

export const levelsWalkLooks: Pick<Looks, "levels-walk"> = {
  /**
   * Whether the pressures at which the pump starts, holds and stops all move the same way by about as much, steadily through the record. A drive or a switch keeps to the
   * pressures that were set: what moves all of them at once is the reading that the logger has of them. A setback moves them by the clock, in one step and back.
   */
  "levels-walk"(sight) {
    const [trace, pump] = [traceIn(sight), pumpOf(sight)];
    if (trace === null || pump?.mode !== "switching" || sight.record.duration < LEAST_RECORD) return null;
    const complete = pump.runs.filter((run) => run.complete);
    const stride = Math.max(1, Math.ceil(complete.length / MOST_RUNS));
    const levels = complete.filter((_, i) => i % stride === 0).flatMap((run) => levelsOf(trace, run) ?? []);
    if (levels.length < LEAST_RUNS) return null;
    const columns = (["starts", "holds", "stops"] as const).map((of) => levels.map((run) => run[of]));
    const changes = columns.map(changeOf);
    const held = quantile(columns[1], 0.5);
    const sizes = changes.map(Math.abs);
    const walks =
      columns.every((values, i) => Math.sign(changes[i]) * oneWay(values) > ONE_WAY) &&
      changes.every((change) => Math.sign(change) === Math.sign(changes[0])) &&
      Math.min(...sizes) > Math.max(A_WALK * held, TOGETHER * Math.max(...sizes));
    return { level: walks ? "walk" : "stay", numbers: { change: changes[1], runs: levels.length } };
  },
};
