import type { SlowerCount } from "../../shared/findings/comparison";
import type { Run } from "../../shared/findings/segment";
import type { BlockGrid } from "./block-grid";

/** Lengths, s, for which is kept what a log would have counted that misses shorter runs and rests. */
export const RUNGS: readonly number[] = [2, 4, 10, 20, 60, 120, 300, 600, 1200];

type PlainRun = Pick<Run, "complete"> & { readonly from: number; readonly to: number };

/** Runs as a slower log shows them: those shorter than `atLeastS` are not there, and a shorter rest joins the runs on both sides of it. */
export function seenRuns(runs: readonly PlainRun[], atLeastS: number): readonly PlainRun[] {
  const seen: PlainRun[] = [];
  for (const run of runs) {
    if (run.complete && run.to - run.from < atLeastS) continue;
    const last = seen.at(-1);
    if (last !== undefined && run.from - last.to < atLeastS)
      seen[seen.length - 1] = { from: last.from, to: run.to, complete: last.complete && run.complete };
    else seen.push(run);
  }
  return seen;
}

/** Starts, and complete runs shorter than the limit, a block. A record that begins with a run does not show its start. */
export function countRuns(runs: readonly PlainRun[], shortLimitS: number, grid: BlockGrid): { starts: number[]; shortCycles: number[] } {
  return {
    starts: grid.countAt(runs.filter((run) => run.from > 0).map((run) => run.from)),
    shortCycles: grid.countAt(runs.filter((run) => run.complete && run.to - run.from < shortLimitS).map((run) => run.from)),
  };
}

/** The counts of ever slower logs, without those that differ from none before. */
export function slowerCounts(runs: readonly PlainRun[], shortLimitS: number, tellsShort: boolean, grid: BlockGrid): SlowerCount[] {
  const kept: SlowerCount[] = [];
  let before = runs.length;
  for (const atLeastS of RUNGS) {
    const seen = seenRuns(runs, atLeastS);
    if (seen.length === before) continue;
    before = seen.length;
    const { starts, shortCycles } = countRuns(seen, shortLimitS, grid);
    kept.push({ atLeastS, starts, shortCycles: tellsShort ? shortCycles : null });
  }
  return kept;
}
