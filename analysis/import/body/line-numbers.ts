/** Line numbers of the accepted rows: first and step while they rise evenly by one, an array from the first irregularity on. */
export class LineNumbers {
  private listed: Uint32Array | null = null;
  private count = 0;
  private first = 0;

  push(line: number): void {
    if (this.listed === null) {
      if (this.count === 0) this.first = line;
      if (line === this.first + this.count) {
        this.count++;
        return;
      }
      this.spread();
    }
    const listed = this.room();
    listed[this.count++] = line;
  }

  /** Pushes `rows` lines that follow each other. */
  pushRun(line: number, rows: number): void {
    if (rows === 0) return;
    if (this.listed === null && (this.count === 0 || line === this.first + this.count)) {
      if (this.count === 0) this.first = line;
      this.count += rows;
      return;
    }
    for (let i = 0; i < rows; i++) this.push(line + i);
  }

  private spread(): void {
    const listed = new Uint32Array(Math.max(1024, this.count * 2));
    for (let i = 0; i < this.count; i++) listed[i] = this.first + i;
    this.listed = listed;
  }

  private room(): Uint32Array {
    let listed = this.listed!;
    if (this.count >= listed.length) {
      const larger = new Uint32Array(listed.length * 2);
      larger.set(listed);
      listed = larger;
      this.listed = larger;
    }
    return listed;
  }

  at(row: number): number {
    return this.listed === null ? this.first + row : this.listed[row];
  }

  /** Lines of the rows in this order; null keeps them all as they came. */
  lines(order: Uint32Array | null): Uint32Array | { readonly first: number; readonly step: number } {
    if (order === null) return this.listed === null ? { first: this.first, step: 1 } : this.listed.slice(0, this.count);
    return Uint32Array.from(order, (row) => this.at(row));
  }
}
