import { LineNumbers } from "./line-numbers";
import type { RowSink } from "./row-sink";
import { RowTimes } from "./row-times";

export type Samples = Float32Array | Float64Array;

/** The rows read so far as columns; grows by doubling where the estimate was too small. */
export class RowStore implements RowSink {
  count = 0;
  capacity: number;
  readonly times = new RowTimes();
  /** SI, shape [capacity] each. */
  values: Samples[];
  readonly lines = new LineNumbers();
  /** Least and greatest sample of each column so far. */
  private readonly lows: Float64Array;
  private readonly highs: Float64Array;

  constructor(
    estimatedRows: number,
    private readonly wide: readonly boolean[],
  ) {
    this.capacity = Math.max(16, estimatedRows);
    this.values = wide.map((isWide) => (isWide ? new Float64Array(this.capacity) : new Float32Array(this.capacity)));
    this.lows = new Float64Array(wide.length).fill(Number.POSITIVE_INFINITY);
    this.highs = new Float64Array(wide.length).fill(Number.NEGATIVE_INFINITY);
  }

  private makeRoom(rows: number): void {
    if (this.count + rows <= this.capacity) return;
    this.capacity = Math.max(this.capacity * 2, this.count + rows);
    this.values = this.values.map((old, i) => {
      const larger = this.wide[i] ? new Float64Array(this.capacity) : new Float32Array(this.capacity);
      larger.set(old);
      return larger;
    });
  }

  /** Least and greatest sample of a column; null where it has none. */
  extremes(column: number): { readonly low: number; readonly high: number } | null {
    const rounded = this.wide[column] ? (value: number) => value : Math.fround;
    const [low, high] = [rounded(this.lows[column]), rounded(this.highs[column])];
    return low <= high ? { low, high } : null;
  }

  /** Samples of a column were changed. */
  lookAgain(column: number): void {
    this.lows[column] = Number.POSITIVE_INFINITY;
    this.highs[column] = Number.NEGATIVE_INFINITY;
    this.widen(column, this.values[column], 0, this.count);
  }

  private widen(column: number, values: Samples, from: number, to: number): void {
    let low = this.lows[column];
    let high = this.highs[column];
    for (let i = from; i < to; i++) {
      const value = values[i];
      if (value < low) low = value;
      if (value > high) high = value;
    }
    this.lows[column] = low;
    this.highs[column] = high;
  }

  /** A row without its line number. */
  add(time: number, row: ArrayLike<number>): void {
    this.makeRoom(1);
    const at = this.count++;
    this.times.push(time);
    for (let i = 0; i < this.values.length; i++) {
      const value = row[i];
      this.values[i][at] = value;
      if (value < this.lows[i]) this.lows[i] = value;
      if (value > this.highs[i]) this.highs[i] = value;
    }
  }

  /** Many rows without their line numbers. @param columns SI, shape [column][rows at least] */
  addMany(times: Float64Array, columns: readonly Float64Array[], rows: number): void {
    this.makeRoom(rows);
    this.times.pushMany(times, rows);
    for (let i = 0; i < columns.length; i++) {
      this.widen(i, columns[i], 0, rows);
      this.values[i].set(columns[i].subarray(0, rows), this.count);
    }
    this.count += rows;
  }

  push(line: number, time: number, row: readonly number[]): void {
    this.add(time, row);
    this.lines.push(line);
  }
}
