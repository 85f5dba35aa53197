/** Times of a part of the rows: shape [n], s, or where they rise evenly their start and step. */
export type TimesPart = Float64Array | { readonly first: number; readonly step: number; readonly count: number };

/**
 * What the clock made of the rows read so far, s: start and step while they rise evenly to the last bit, an array from the first that does not.
 * Rows of a counted clock (NaN from the first on) take no memory either.
 */
export class RowTimes {
  count = 0;
  private first = Number.NaN;
  private step = Number.NaN;
  private listed: Float64Array | null = null;

  push(time: number): void {
    if (this.listed === null) {
      if (this.goesOn(time)) {
        this.count++;
        return;
      }
      this.spread();
    }
    if (this.count >= this.listed!.length) this.grow(this.count * 2);
    this.listed![this.count++] = time;
  }

  /** The first `rows` of these. */
  pushMany(times: Float64Array, rows: number): void {
    let i = 0;
    for (; i < rows && this.listed === null && this.count < 2; i++) this.push(times[i]);
    if (this.listed === null) {
      const { first, step, count } = this;
      const begin = i;
      while (i < rows && times[i] === first + (count + i - begin) * step) i++;
      this.count += i - begin;
    }
    for (; i < rows && this.listed === null; i++) this.push(times[i]);
    if (this.listed === null || i >= rows) return;
    if (this.count + rows - i > this.listed.length) this.grow(Math.max(this.count * 2, this.count + rows));
    this.listed.set(times.subarray(i, rows), this.count);
    this.count += rows - i;
  }

  private goesOn(time: number): boolean {
    if (this.count === 0) {
      this.first = time;
      return true;
    }
    if (Number.isNaN(time) || Number.isNaN(this.first)) return Number.isNaN(time) && Number.isNaN(this.first);
    if (this.count === 1) this.step = time - this.first;
    return time === this.first + this.count * this.step;
  }

  private spread(): void {
    this.listed = new Float64Array(Math.max(1024, this.count * 2));
    for (let i = 0; i < this.count; i++) this.listed[i] = this.at(i);
  }

  private grow(length: number): void {
    const larger = new Float64Array(length);
    larger.set(this.listed!);
    this.listed = larger;
  }

  private at(row: number): number {
    return row === 0 ? this.first : this.first + row * this.step;
  }

  /** Start and step where all rows stand evenly and rise, else null; nothing is known of fewer than two rows. */
  even(): { readonly first: number; readonly step: number } | null {
    return this.listed === null && this.count > 1 && this.step > 0 ? { first: this.first, step: this.step } : null;
  }

  /** As it can be handed over. */
  part(): TimesPart {
    const even = this.even();
    return even === null ? this.all().slice() : { ...even, count: this.count };
  }

  /** Those of a part read elsewhere. */
  append(part: TimesPart): void {
    if (part instanceof Float64Array) {
      this.pushMany(part, part.length);
      return;
    }
    const { first, step, count } = part;
    if (this.listed === null && this.count > 1 && step === this.step && first === this.at(this.count)) {
      this.count += count;
      return;
    }
    for (let i = 0; i < count; i++) this.push(first + i * step);
  }

  /** All of them, shape [count]. Makes an array where they stand evenly: ask once. */
  all(): Float64Array {
    if (this.listed !== null) return this.listed.subarray(0, this.count);
    const times = new Float64Array(this.count);
    for (let i = 0; i < this.count; i++) times[i] = this.at(i);
    return times;
  }
}
