const HOUR = 3600;
/** Fewest blocks for a bootstrap to mean anything; a shorter record is cut into this many. */
const FEWEST_BLOCKS = 12;
/** Most blocks, a year of hours: a damaged clock may span millennia, whose empty blocks would fill the memory and be drawn for hours. */
const MOST_BLOCKS = 9000;

/** Equal blocks of time that a record is cut into. */
export type BlockGrid = {
  readonly zeros: () => number[];
  readonly blockOf: (t: number) => number;
  /** Seconds of the spans in each block. */
  readonly sumSpans: (spans: readonly { readonly from: number; readonly to: number }[]) => number[];
  readonly countAt: (instants: readonly number[]) => number[];
};

/** @param blockS length of a block, s     @param count blocks of the record; what lies after the last goes to it */
export function blockGrid(blockS: number, count: number): BlockGrid {
  const zeros = (): number[] => new Array<number>(count).fill(0);
  const blockOf = (t: number) => Math.min(count - 1, Math.max(0, Math.floor(t / blockS)));
  const addSpan = (sums: number[], from: number, to: number) => {
    for (let b = blockOf(from); b <= blockOf(to); b++) {
      const end = b === count - 1 ? to : Math.min(to, (b + 1) * blockS);
      const overlap = end - Math.max(from, b * blockS);
      if (overlap > 0) sums[b] += overlap;
    }
  };
  return {
    zeros,
    blockOf,
    sumSpans(spans) {
      const sums = zeros();
      for (const { from, to } of spans) addSpan(sums, from, to);
      return sums;
    },
    countAt(instants) {
      const counts = zeros();
      for (const t of instants) counts[blockOf(t)]++;
      return counts;
    },
  };
}

/** The blocks that a record is cut into: an hour each, less for a record under twelve hours, more for one over a year. @param duration s */
export function blocksOf(duration: number): { readonly blockS: number; readonly grid: BlockGrid } {
  const blockS = Math.max(duration / MOST_BLOCKS, Math.min(HOUR, Math.max(1, duration / FEWEST_BLOCKS)));
  return { blockS, grid: blockGrid(blockS, Math.max(1, Math.ceil(duration / blockS - 1e-9))) };
}
