import { isMissing, parseNumber } from "../number-format";
import { endsInsideQuotes, splitRow } from "../row-cells";
import type { PlannedColumn, TablePlan } from "../table-plan";
import { isRepeatedHeading } from "./repeated-heading";
import type { RowLog } from "./row-log";
import type { RowStore } from "./row-store";

const MOST_LINES_IN_A_ROW = 100;
const LONGEST_ROW = 64 * 1024;
/** After so many quotes that never close, quotes are no longer believed to hold line ends: keeps the time linear. */
const UNCLOSED_ALLOWED = 8;

/** Reads rows one by one as text: whatever the byte reader does not understand. */
export class TextRows {
  private open: { readonly line: number; readonly lines: string[]; length: number } | null = null;
  private unclosed = 0;
  private readonly numbers: readonly PlannedColumn[];
  private readonly row: number[];

  constructor(
    private readonly plan: TablePlan,
    private readonly store: RowStore,
    private readonly log: RowLog,
  ) {
    this.numbers = plan.columns.filter((column) => column.use === "number");
    this.row = this.numbers.map(() => Number.NaN);
  }

  /** Whether a quote is open: the next line belongs to the same row. */
  get isOpen(): boolean {
    return this.open !== null;
  }

  /** One line without its end. */
  takeLine(text: string, line: number): void {
    if (this.open !== null) {
      this.continueRow(text);
      return;
    }
    if (this.unclosed < UNCLOSED_ALLOWED && endsInsideQuotes(text, this.plan.cells))
      this.open = { line, lines: [text], length: text.length };
    else this.takeRow(text, line);
  }

  /** The file is over; `cutOff` where its last line has no end. */
  finish(cutOff: boolean): void {
    if (this.open !== null) this.giveUpQuote();
    this.log.finish(cutOff);
  }

  private continueRow(text: string): void {
    const open = this.open!;
    open.lines.push(text);
    open.length += text.length;
    // Only a line with a quote in it can close the row.
    if (text.includes(this.plan.cells.quote)) {
      const whole = open.lines.join("\n");
      if (!endsInsideQuotes(whole, this.plan.cells)) {
        this.open = null;
        this.takeRow(whole, open.line);
        return;
      }
    }
    if (open.lines.length >= MOST_LINES_IN_A_ROW || open.length > LONGEST_ROW) this.giveUpQuote();
  }

  /** The quote never closed: every line of it stands for itself. */
  private giveUpQuote(): void {
    const { line, lines } = this.open!;
    this.open = null;
    this.unclosed++;
    for (let i = 0; i < lines.length; i++) this.takeRow(lines[i], line + i);
  }

  private takeRow(text: string, line: number): void {
    if (text.trim() === "") {
      this.log.blank(line);
      return;
    }
    const cells = splitRow(text, this.plan.cells);
    if (cells.every((cell) => cell === "")) {
      this.log.blank(line);
      return;
    }
    const time = this.timeOf(cells);
    if (Number.isNaN(time) && this.plan.clock.kind !== "counted") {
      if (isRepeatedHeading(cells, this.plan)) {
        this.log.heading(line, this.store.count);
        return;
      }
      this.log.unread(line, text, cells, this.store.count);
      return;
    }
    this.takeValues(text, cells, line, time);
  }

  private timeOf(cells: readonly string[]): number {
    const { clock } = this.plan;
    return clock.kind === "counted" ? Number.NaN : clock.parse(clock.columns.map((index) => cells[index] ?? ""));
  }

  private takeValues(text: string, cells: readonly string[], line: number, time: number): void {
    const surplus = cells.slice(this.plan.columns.length).filter((cell) => cell !== "");
    if (surplus.some((cell) => !Number.isNaN(parseNumber(cell, this.plan.numbers)))) {
      this.log.reject(line, text, `has ${cells.length} cells where ${this.plan.columns.length} are expected`);
      return;
    }
    let good = 0;
    let bad = 0;
    for (let i = 0; i < this.numbers.length; i++) {
      const column = this.numbers[i];
      const cell = cells[column.index] ?? "";
      const value = readCell(cell, column, this.plan);
      this.row[i] = value;
      if (!Number.isNaN(value)) good++;
      else if (!isMissing(cell) && !isSentinel(cell, column, this.plan)) bad++;
    }
    if (good === 0 && bad > 0) {
      if (isRepeatedHeading(cells, this.plan)) {
        this.log.heading(line, this.store.count);
        return;
      }
      this.log.unread(line, text, cells, this.store.count);
      return;
    }
    if (bad > 0) this.noteBadCells(cells, line);
    if (surplus.length > 0) this.log.surplusCells(line);
    this.log.data();
    this.store.push(line, time, this.row);
  }

  private noteBadCells(cells: readonly string[], line: number): void {
    this.numbers.forEach((column, i) => {
      const cell = cells[column.index] ?? "";
      if (Number.isNaN(this.row[i]) && !isMissing(cell) && !isSentinel(cell, column, this.plan))
        this.log.badCell(column.heading, line, cell);
    });
  }
}

/** A cell in SI; NaN where it is missing, a sentinel or no number. */
export function readCell(cell: string, column: PlannedColumn, plan: TablePlan): number {
  const { words, sentinels, factor, offset } = column.reading;
  const word = words.size > 0 ? words.get(cell.toLowerCase()) : undefined;
  const number = word ?? (isMissing(cell) ? Number.NaN : parseNumber(cell, plan.numbers));
  return sentinels.length > 0 && sentinels.includes(number) ? Number.NaN : number * factor + offset;
}

export const isSentinel = (cell: string, column: PlannedColumn, plan: TablePlan) =>
  column.reading.sentinels.length > 0 && column.reading.sentinels.includes(parseNumber(cell, plan.numbers));
