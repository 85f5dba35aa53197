import type { PlannedColumn } from "../table-plan";
import { LineNumbers } from "./line-numbers";
import type { PlainPart } from "./plain-part";
import type { RowSink } from "./row-sink";
import { RowTimes } from "./row-times";

export type Samples = Float32Array | Float64Array;

/** Puts SI = number * factor + offset of `rows` numbers into `values` from `at` on. @returns the least and the greatest */
function toSi(numbers: Float64Array, values: Samples, at: number, rows: number, factor: number, offset: number) {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < rows; i++) {
    const value = numbers[i] * factor + offset;
    values[at + i] = value;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, high };
}

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

  /** Whether two rows carry the same values, missing ones too. */
  alike(row: number, other: number): boolean {
    return this.values.every((column) => Object.is(column[row], column[other]));
  }

  /** Samples of a column were changed. */
  lookAgain(column: number): void {
    this.lows[column] = Number.POSITIVE_INFINITY;
    this.highs[column] = Number.NEGATIVE_INFINITY;
    const values = this.values[column].subarray(0, this.count);
    for (const value of values) this.widen(column, value, value);
  }

  private widen(column: number, low: number, high: number): void {
    if (low < this.lows[column]) this.lows[column] = low;
    if (high > this.highs[column]) this.highs[column] = high;
  }

  /** A row without its line number. */
  add(time: number, row: ArrayLike<number>): void {
    this.makeRoom(1);
    const at = this.count++;
    this.times.push(time);
    for (let i = 0; i < this.values.length; i++) {
      this.values[i][at] = row[i];
      this.widen(i, row[i], row[i]);
    }
  }

  /**
   * Many rows without their line numbers.
   * @param columns as the file has them, shape [column][rows at least]     @param planned of the same columns
   */
  addMany(times: Float64Array, columns: readonly Float64Array[], planned: readonly PlannedColumn[], rows: number): void {
    this.makeRoom(rows);
    this.times.pushMany(times, rows);
    for (let i = 0; i < columns.length; i++) {
      const { factor, offset } = planned[i].reading;
      const { low, high } = toSi(columns[i], this.values[i], this.count, rows, factor, offset);
      this.widen(i, low, high);
    }
    this.count += rows;
  }

  /** Rows of a part read elsewhere, without their line numbers. */
  append({ rows, times, values }: Pick<PlainPart, "rows" | "times" | "values">): void {
    this.makeRoom(rows);
    this.times.append(times);
    for (let i = 0; i < values.length; i++) {
      this.values[i].set(values[i], this.count);
      for (let k = 0; k < rows; k++) this.widen(i, values[i][k], values[i][k]);
    }
    this.count += rows;
  }

  push(line: number, time: number, row: readonly number[]): void {
    this.add(time, row);
    this.lines.push(line);
  }
}
