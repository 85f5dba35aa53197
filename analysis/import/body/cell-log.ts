import type { ReadingNote } from "../../../shared/wording/reading-note";
import { isBeyondLimit } from "../number-format";

/** What was noticed in the cells of rows of data, counted, with the line where it was first seen. */
export class CellLog {
  private readonly bad = new Map<string, { count: number; readonly line: number; readonly cell: string }>();
  private readonly doubtful = new Map<string, { count: number; readonly line: number; readonly cell: string }>();
  private readonly unfit = new Map<string, { count: number; readonly line: number; readonly said: string; readonly by: string }>();
  private surplus = { count: 0, line: 0 };
  private otherCuts = { count: 0, line: 0 };
  private short = { count: 0, line: 0 };
  private nul = { count: 0, line: 0 };

  badCell(heading: string, line: number, cell: string): void {
    const known = this.bad.get(heading);
    if (known === undefined) this.bad.set(heading, { count: 1, line, cell: cell.slice(0, 40) });
    else known.count++;
  }

  /** A value that the column of qualities says not to use. */
  badQuality(heading: string, line: number, said: string, by: string): void {
    const known = this.unfit.get(heading);
    if (known === undefined) this.unfit.set(heading, { count: 1, line, said: said.slice(0, 40), by });
    else known.count++;
  }

  doubtfulCell(heading: string, line: number, cell: string): void {
    const known = this.doubtful.get(heading);
    if (known === undefined) this.doubtful.set(heading, { count: 1, line, cell: cell.slice(0, 40) });
    else known.count++;
  }

  surplusCells(line: number): void {
    if (this.surplus.count++ === 0) this.surplus.line = line;
  }

  /** A row that ends before its last columns. */
  shortRow(line: number): void {
    if (this.short.count++ === 0) this.short.line = line;
  }

  nulBytes(line: number, count: number): void {
    if (this.nul.count === 0) this.nul.line = line;
    this.nul.count += count;
  }

  otherDelimiter(line: number): void {
    if (this.otherCuts.count++ === 0) this.otherCuts.line = line;
  }

  notes(): ReadingNote[] {
    const notes: ReadingNote[] = [];
    for (const [heading, cells] of this.bad)
      notes.push({ kind: isBeyondLimit(cells.cell) ? "beyond-limit" : "bad-cells", heading, ...cells });
    for (const [heading, cells] of this.doubtful) notes.push({ kind: "marked-cells", heading, ...cells });
    for (const [heading, values] of this.unfit) notes.push({ kind: "bad-quality", heading, ...values });
    if (this.surplus.count > 0) notes.push({ kind: "surplus-cells", ...this.surplus });
    if (this.short.count > 0) notes.push({ kind: "short-rows", ...this.short });
    if (this.nul.count > 0) notes.push({ kind: "nul-bytes", ...this.nul });
    if (this.otherCuts.count > 0) notes.push({ kind: "delimiter-changes", ...this.otherCuts });
    return notes;
  }
}
