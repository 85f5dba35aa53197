import type { BlockSums, VisitMeasures } from "../../shared/findings/comparison";
import { blockGrid } from "./block-grid";
import { RUNGS } from "./seen-runs";

/** Samples a period needs to be seen, and a run or a rest. */
const [SAMPLES_PER_PERIOD, SAMPLES_PER_RUN] = [4, 2];
/** Loggers within this ratio of one another see alike. */
const ALIKE = 1.5;

/** What the slower of two loggers could not have seen: nothing of it is held against the faster one. Null where both see alike. */
export type Hidden = { readonly periodS: number | null; readonly runS: number | null };

export function hiddenBetween(a: VisitMeasures, b: VisitMeasures): Hidden {
  const period = slowerOf(a.intervalS, b.intervalS);
  const run = slowerOf(a.pumpIntervalS, b.pumpIntervalS);
  const least = run === null ? null : SAMPLES_PER_RUN * run;
  return {
    periodS: period === null ? null : SAMPLES_PER_PERIOD * period,
    // To the next length for which counts were kept; beyond the last nothing can be compared.
    runS: least === null ? null : (RUNGS.find((rung) => rung >= least) ?? Number.POSITIVE_INFINITY),
  };
}

/** The slower interval where it is clearly slower; a log on change (null) misses nothing. */
function slowerOf(a: number | null, b: number | null): number | null {
  const [fast, slow] = [Math.min(a ?? 0, b ?? 0), Math.max(a ?? 0, b ?? 0)];
  return slow > ALIKE * fast ? slow : null;
}

/** A slower log gives a run or a rest near its own blind length now as seen, now as not: no more of the starts may hang on it than this. */
const MOST_UNSURE = 0.1;

/** Whether too many starts hang on runs or rests that the slower logger sees only by chance: up to twice what it surely misses. */
export function startsAreUnsure({ blocks, slower }: VisitMeasures, { runS }: Hidden): boolean {
  if (runS === null) return false;
  const total = (starts: readonly number[]) => starts.reduce((sum, n) => sum + n, 0);
  const all = total(blocks.starts);
  const sure = slower.filter(({ atLeastS }) => atLeastS <= 2 * runS).at(-1);
  return sure !== undefined && all - total(sure.starts) > MOST_UNSURE * all;
}

export type LikeSums = BlockSums & { readonly oscillating: readonly number[] };

/** The sums of a visit without what the slower logger could not have seen. */
export function likeForLike({ blocks, slower, episodes, blockS }: VisitMeasures, { periodS, runS }: Hidden): LikeSums {
  const counts = runS === null ? null : (slower.filter(({ atLeastS }) => atLeastS <= runS).at(-1) ?? null);
  const grid = blockGrid(blockS, blocks.lookedAt.length);
  const seen = episodes.filter((e) => e.periodS >= (periodS ?? 0)).map((e) => ({ from: e.fromS, to: e.toS }));
  return {
    ...blocks,
    starts: counts?.starts ?? blocks.starts,
    shortCycles: counts === null ? blocks.shortCycles : counts.shortCycles,
    // Never more than was looked at: an episode's edges may reach over the run it lies in.
    oscillating: grid.sumSpans(seen).map((s, i) => Math.min(s, blocks.lookedAt[i])),
  };
}
