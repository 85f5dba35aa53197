import { LineNumbers } from "./line-numbers";
import type { RowSink } from "./row-sink";

export type Samples = Float32Array | Float64Array;

/** The rows read so far as columns; grows by doubling where the estimate was too small. */
export class RowStore implements RowSink {
  count = 0;
  capacity: number;
  /** What the clock made of each row, s; NaN for a counted clock. Shape [capacity]. */
  raw: Float64Array;
  /** SI, shape [capacity] each. */
  values: Samples[];
  readonly lines = new LineNumbers();

  constructor(
    estimatedRows: number,
    private readonly wide: readonly boolean[],
  ) {
    this.capacity = Math.max(16, estimatedRows);
    this.raw = new Float64Array(this.capacity);
    this.values = wide.map((isWide) => (isWide ? new Float64Array(this.capacity) : new Float32Array(this.capacity)));
  }

  grow(): void {
    this.capacity *= 2;
    const raw = new Float64Array(this.capacity);
    raw.set(this.raw);
    this.raw = raw;
    this.values = this.values.map((old, i) => {
      const larger = this.wide[i] ? new Float64Array(this.capacity) : new Float32Array(this.capacity);
      larger.set(old);
      return larger;
    });
  }

  private readonly known: ({ readonly low: number; readonly high: number } | null)[] = [];
  /** Least and greatest sample of a column, worked out once; null where it has none. */
  extremes(column: number): { readonly low: number; readonly high: number } | null {
    const known = this.known[column];
    if (known !== undefined) return known;
    const values = this.values[column];
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < this.count; i++) {
      const value = values[i];
      if (value < low) low = value;
      if (value > high) high = value;
    }
    const found = low <= high ? { low, high } : null;
    this.known[column] = found;
    return found;
  }

  /** Samples of a column were changed. */
  forgetExtremes(column: number): void {
    delete this.known[column];
  }

  push(line: number, time: number, row: readonly number[]): void {
    if (this.count >= this.capacity) this.grow();
    const at = this.count++;
    this.raw[at] = time;
    for (let i = 0; i < row.length; i++) this.values[i][at] = row[i];
    this.lines.push(line);
  }
}
