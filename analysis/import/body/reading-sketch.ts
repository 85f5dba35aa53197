import type { PlannedColumn, TablePlan } from "../table-plan";
import type { RowStore } from "./row-store";

/** A column as far as it is read: least and greatest value for each of as many equal parts of the file's bytes, SI; NaN where none was read yet. */
export type SketchedColumn = {
  readonly heading: string;
  readonly quantity: PlannedColumn["reading"]["quantity"];
  readonly min: Float32Array;
  readonly max: Float32Array;
};

const PARTS = 480;

/** Follows the rows while they are read, for a picture that grows. Looks at the new rows only when it is asked, so that it costs nothing where nobody looks. */
export class ReadingSketch {
  private rows = 0;
  private bytes = 0;
  private readonly columns: readonly SketchedColumn[];

  constructor(
    numbers: readonly PlannedColumn[],
    private readonly store: RowStore,
    private readonly totalBytes: number,
  ) {
    const empty = () => new Float32Array(PARTS).fill(Number.NaN);
    this.columns = numbers.map(({ heading, reading: { quantity } }) => ({ heading, quantity, min: empty(), max: empty() }));
  }

  /** All up to so many bytes; a copy. The rows since the last look are taken to lie evenly in the bytes since then. */
  upTo(bytes: number): readonly SketchedColumn[] {
    const { count, values } = this.store;
    const part = (row: number) => {
      const at = this.bytes + ((row - this.rows) / Math.max(1, count - this.rows)) * (bytes - this.bytes);
      return Math.min(PARTS - 1, Math.floor((at / Math.max(1, this.totalBytes)) * PARTS));
    };
    const [first, last] = [part(this.rows), part(count)];
    for (let p = first, from = this.rows; p <= last && from < count; p++) {
      const share = (((p + 1) / PARTS) * this.totalBytes - this.bytes) / Math.max(1, bytes - this.bytes);
      const to = p === last ? count : Math.min(count, Math.ceil(this.rows + share * (count - this.rows)));
      for (let i = 0; i < values.length; i++) widen(this.columns[i], p, values[i], from, to);
      from = to;
    }
    this.rows = count;
    this.bytes = bytes;
    return this.columns.map((column) => ({ ...column, min: column.min.slice(), max: column.max.slice() }));
  }
}

function widen({ min, max }: SketchedColumn, part: number, values: Float32Array | Float64Array, from: number, to: number): void {
  let [low, high] = [min[part], max[part]];
  for (let i = from; i < to; i++) {
    const value = values[i];
    if (value < low || (Number.isNaN(low) && !Number.isNaN(value))) low = value;
    if (value > high || (Number.isNaN(high) && !Number.isNaN(value))) high = value;
  }
  min[part] = low;
  max[part] = high;
}

export const sketchOf = (plan: TablePlan, store: RowStore, totalBytes: number): ReadingSketch =>
  new ReadingSketch(
    plan.columns.filter(({ use }) => use === "number"),
    store,
    totalBytes,
  );
