import { dateIn } from "../clock/dated-sections";
import { isBadQuality } from "../columns/quality-column";
import { ownUnit } from "../columns/unit-column";
import { namesStatistic } from "../dialects/heading-rows";
import { hasDoubtMark, isBeyondLimit, isMissing, parseNumber } from "../number-format";
import { endsInsideQuotes, splitRow } from "../row-cells";
import type { PlannedColumn, TablePlan } from "../table-plan";
import { laterHeading } from "./later-headings";
import type { RowLog } from "./row-log";
import type { RowSink } from "./row-sink";

const MOST_LINES_IN_A_ROW = 100;
const LONGEST_ROW = 64 * 1024;
/** After so many quotes that never close, quotes are no longer believed to hold line ends: keeps the time linear. */
const UNCLOSED_ALLOWED = 8;

/** Reads rows one by one as text: whatever the byte reader does not understand. */
export class TextRows {
  private open: { readonly line: number; readonly lines: string[]; length: number } | null = null;
  private unclosed = 0;
  /** Where the columns of the plan are since the headings came again in another order. */
  private moved: readonly number[] | null = null;
  /** Units that columns have since then, where they are other ones. */
  private units: readonly (string | null)[] | null = null;
  /** Inside another table below the log. */
  private elsewhere = false;
  /** The headings came again under a title of their own: the next row shows whether the log goes on or a twin of it begins. */
  private twin: { readonly line: number; readonly cells: readonly string[]; readonly title: string } | null = null;
  private readonly numbers: readonly PlannedColumn[];
  private readonly row: number[];

  constructor(
    private readonly plan: TablePlan,
    private readonly sink: RowSink,
    private readonly log: RowLog,
  ) {
    this.numbers = plan.columns.filter((column) => column.use === "number");
    this.row = this.numbers.map(() => Number.NaN);
  }

  /** Whether the next line has to come here: a quote is open, or the table is not the plan's at the moment. */
  get wantsNext(): boolean {
    return this.open !== null || this.moved !== null || this.elsewhere || this.twin !== null;
  }

  /** One line without its end. @param unended the file stops in it */
  takeLine(text: string, line: number, unended: boolean): void {
    if (this.open !== null) this.continueRow(text);
    else if (this.unclosed < UNCLOSED_ALLOWED && endsInsideQuotes(text, this.plan.cells))
      this.open = { line, lines: [text], length: text.length };
    else this.takeRow(text, line, unended);
  }

  /** The file is over. */
  finish(): void {
    if (this.open !== null) this.giveUpQuote();
    if (this.twin !== null) this.log.heading(this.twin.line, this.sink.count);
    this.log.finish();
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
        this.takeRow(whole, open.line, false);
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
    for (let i = 0; i < lines.length; i++) this.takeRow(lines[i], line + i, false);
  }

  private takeRow(text: string, line: number, unended: boolean): void {
    const cells = text.trim() === "" ? [] : splitRow(text, this.plan.cells);
    const { only } = this.plan;
    if (only === null ? cells.every((cell) => cell === "") : only.every((index) => (cells[index] ?? "") === "")) {
      this.log.blank(line);
      return;
    }
    if (this.twin !== null) this.settleTwin(this.twin, cells);
    if (!this.elsewhere && (this.takeData(text, cells, line, unended) || this.takeOtherwiseCut(text, line, unended))) return;
    this.takeOther(text, cells, line);
  }

  /** A row that another delimiter cuts into cells of the plan, numbers and all: the logger was set otherwise in between. */
  private takeOtherwiseCut(text: string, line: number, unended: boolean): boolean {
    const cells = otherwiseCut(text, this.plan);
    if (cells === null || !this.takeData(text, cells, line, unended)) return false;
    this.log.cells.otherDelimiter(line);
    return true;
  }

  /** A row that is no data: headings again, the start of another table, or something whose kind shows by what follows. */
  private takeOther(text: string, cells: readonly string[], line: number): void {
    const heading = laterHeading(cells, this.plan);
    const date = heading === null && this.plan.clock.rollsOverMidnight && !this.elsewhere ? dateIn(text) : null;
    if (date !== null) {
      this.log.dated(line, this.sink.count, date);
      return;
    }
    if (heading === null) {
      if (this.elsewhere) this.log.otherTable(line, text, cells);
      else this.log.unread(line, text, cells);
      return;
    }
    const title = heading.kind === "same" && this.plan.clock.kind !== "elapsed" ? this.log.titleAbove() : null;
    if (title !== null && this.plan.firstStamp.length > 0) {
      this.twin = { line, cells, title };
      return;
    }
    this.elsewhere = heading.kind === "other-table";
    this.moved = heading.kind === "moved" ? heading.columns : null;
    this.units = heading.kind === "moved" && heading.units.some((unit) => unit !== null) ? heading.units : null;
    if (this.elsewhere) this.log.startOtherTable(line, cells);
    else this.log.heading(line, this.sink.count);
    if (heading.kind === "moved" && heading.further.length > 0) this.log.columnsCome(line, heading.further);
    if (this.moved?.includes(-1))
      this.log.columnsGone(
        line,
        this.plan.columns.filter((_, i) => this.moved?.[i] === -1).map(({ heading: name }) => name),
      );
  }

  /** A logger that starts anew goes on in time; a table that begins at the very instant of the first is that of another machine. */
  private settleTwin({ line, cells: headings, title }: NonNullable<TextRows["twin"]>, cells: readonly string[]): void {
    this.twin = null;
    this.elsewhere = this.plan.clock.columns.every((index, i) => cells[index] === this.plan.firstStamp[i]);
    if (this.elsewhere) this.log.startOtherTable(line, [title, ...headings]);
    else this.log.heading(line, this.sink.count);
  }

  /** @returns false where the row is not one of the data */
  private takeData(text: string, given: readonly string[], line: number, unended: boolean): boolean {
    const cells = this.moved === null ? given : this.moved.map((index) => given[index] ?? "");
    if (unended && given.length < this.plan.columns.length && /^["']?[\d+-]/.test(given[0])) {
      this.log.reject(line, text, { kind: "ends-within" });
      return true;
    }
    const { clock, stampLength } = this.plan;
    if (given.length === 1 && this.plan.columns.length > 1 && stampLength !== null && given[0].length < stampLength) return false;
    const time = clock.kind === "counted" ? Number.NaN : clock.parse(clock.columns.map((index) => cells[index] ?? ""));
    const carried = clock.stampsOnce === true && clock.columns.every((index) => (cells[index] ?? "") === "");
    if (Number.isNaN(time) && clock.kind !== "counted" && !carried) return false;
    const surplus = this.moved === null ? given.slice(this.plan.columns.length).filter((cell) => cell !== "") : [];
    if (surplus.some((cell) => !Number.isNaN(parseNumber(cell, this.plan.numbers)))) {
      this.log.reject(line, text, { kind: "cell-count", cells: given.length, expected: this.plan.columns.length });
      return true;
    }
    const bad = this.readValues(cells, line);
    this.dropBadQuality(cells, line);
    // without a time only the word tells a row of statistics from one of data
    if (bad > 0 && clock.kind === "counted" && cells.some(namesStatistic)) return false;
    if (bad > 0 && this.row.every(Number.isNaN) && !this.numbers.some(({ index }) => isBeyondLimit(cells[index] ?? ""))) return false;
    if (bad > 0) this.noteBadCells(cells, line);
    if (surplus.length > 0) this.log.cells.surplusCells(line);
    const breaksOff = unended ? given.length === this.plan.columns.length : given.length > 1 && given.length < this.plan.columns.length;
    if (breaksOff && this.moved === null && !this.dropCutNumber(given, line, unended)) {
      this.log.reject(line, text, { kind: "first-value-cut" });
      return true;
    }
    if (this.moved === null && !unended && this.numbers.some(({ index }) => index >= given.length)) this.log.cells.shortRow(line);
    this.log.data();
    this.sink.push(line, time, this.row, cells);
    return true;
  }

  /** Fills `row`. @returns how many cells are neither a number nor missing */
  private readValues(cells: readonly string[], line: number): number {
    let bad = 0;
    for (let i = 0; i < this.numbers.length; i++) {
      const column = this.numbers[i];
      const cell = cells[column.index] ?? "";
      this.row[i] = readCell(cell, column, this.plan, this.unitBeside(column, cells));
      if (Number.isNaN(this.row[i])) {
        if (isBad(cell, column, this.plan)) bad++;
      } else if (hasDoubtMark(cell)) this.log.cells.doubtfulCell(column.heading, line, cell);
    }
    return bad;
  }

  /** Values that another cell of the row says not to use. */
  private dropBadQuality(cells: readonly string[], line: number): void {
    this.numbers.forEach(({ quality, heading }, i) => {
      const said = quality === undefined ? "" : (cells[quality.index] ?? "");
      if (quality === undefined || said === quality.usual || Number.isNaN(this.row[i]) || !isBadQuality(said)) return;
      this.row[i] = Number.NaN;
      this.log.cells.badQuality(heading, line, said, quality.heading);
    });
  }

  /** The unit that another cell or later headings name for a value of this column. */
  private unitBeside({ index, unitColumn }: PlannedColumn, cells: readonly string[]): string | null {
    return this.units?.[index] ?? (unitColumn === null ? null : (cells[unitColumn] ?? null));
  }

  private noteBadCells(cells: readonly string[], line: number): void {
    this.numbers.forEach((column, i) => {
      const cell = cells[column.index] ?? "";
      if (Number.isNaN(this.row[i]) && isBad(cell, column, this.plan)) this.log.cells.badCell(column.heading, line, cell);
    });
  }

  /**
   * The row stops in a number that has fewer decimals than all others of its column: "5" may have been 52.30. @returns false where no value is left of the
   * row
   */
  private dropCutNumber(cells: readonly string[], line: number, unended: boolean): boolean {
    const at = cells.length - 1;
    const slot = this.numbers.findIndex(({ index }) => index === at);
    const decimals = this.plan.decimals[at] ?? null;
    if (slot >= 0 && cells[at] === "" && unended) this.log.cutRow(this.numbers[slot].heading, line);
    if (slot < 0 || decimals === null || cells[at] === "") return true;
    const mark = cells[at].lastIndexOf(this.plan.numbers.decimal);
    if ((mark < 0 ? 0 : cells[at].length - mark - 1) >= decimals) return true;
    this.row[slot] = Number.NaN;
    if (!this.row.every(Number.isNaN) || unended) this.log.cutCell(this.numbers[slot].heading, line, cells[at], unended);
    return unended || !this.row.every(Number.isNaN);
  }
}

/** Cells by another delimiter, as many as the plan has columns and each number one; null where no other gives them. */
function otherwiseCut(text: string, plan: TablePlan): readonly string[] | null {
  const { separator, quote } = plan.cells;
  if (separator.kind !== "character" || plan.columns.length < 2) return null;
  const isGood = (cell: string, { reading }: PlannedColumn) =>
    isMissing(cell) || reading.words.has(cell.toLowerCase()) || !Number.isNaN(parseNumber(cell, plan.numbers));
  for (const character of [",", ";", "\t", "|"]) {
    if (character === separator.character || !text.includes(character)) continue;
    const cells = splitRow(text, { separator: { kind: "character", character }, quote });
    if (
      cells.length === plan.columns.length &&
      plan.columns.every((column) => column.use !== "number" || isGood(cells[column.index], column))
    )
      return cells;
  }
  return null;
}

/** The largest value that a sample array holds; a cell beyond it is no measurement, and must not become infinite. */
const LARGEST_SAMPLE = 3.4028234663852886e38;

/**
 * A cell in SI; NaN where it is missing, a sentinel, no number or too large for any measurement. A unit of its own goes before that of its column.
 * @param beside the unit that another column names for it
 */
export function readCell(cell: string, column: PlannedColumn, plan: TablePlan, beside: string | null = null): number {
  const { words, sentinels, unit, raw } = column.reading;
  const word = words.size > 0 ? words.get(cell.toLowerCase()) : undefined;
  const number = word ?? (isMissing(cell) ? Number.NaN : parseNumber(cell, plan.numbers));
  if (sentinels.length > 0 && sentinels.includes(number)) return Number.NaN;
  const { factor, offset } = (raw === null ? ownUnit(cell, unit, beside) : null) ?? column.reading;
  return asSample(number * factor + offset);
}

export const asSample = (si: number): number => (Math.abs(si) <= LARGEST_SAMPLE ? si : Number.NaN);

/** Neither number nor word of the column nor a mark of a missing value. */
export const isBad = (cell: string, { reading }: PlannedColumn, { numbers }: TablePlan) =>
  !isMissing(cell) && !(reading.sentinels.length > 0 && reading.sentinels.includes(parseNumber(cell, numbers)));
