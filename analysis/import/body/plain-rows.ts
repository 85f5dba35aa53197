import type { TextEncoding } from "../encoding";
import { hasDoubtMark } from "../number-format";
import type { PlannedColumn, TablePlan } from "../table-plan";
import { cellTextAt } from "./cell-text-at";
import { QuickRows } from "./quick-rows";
import type { RowStore } from "./row-store";
import { type StampScanner, stampScanner } from "./stamp-scanner";
import { isBad, readCell } from "./text-rows";
import { usualWords } from "./usual-words";

const LF = 10;
const CR = 13;
const SPACE = 32;
const PLUS = 43;
const MINUS = 45;

/** Powers of ten that a double holds exactly: 10^22 is the last (5^22 < 2^53). */
const POWERS = Array.from({ length: 23 }, (_, i) => 10 ** i);
/** Integers of so many digits are below 2^53; an integer below it divided by an exact power of ten rounds once, hence equals Number(). */
const EXACT_DIGITS = 15;

const TIME = 0;
const NUMBER = 1;
const TEXT = 2;
/** The unit of the numbers of another column, which is the same in nearly all rows. */
const UNIT = 3;

/** Where a cell could not be read, NaN being a missing value. */
const NOT_PLAIN = Number.NEGATIVE_INFINITY;

/**
 * Reads plain rows straight from bytes into the store. It stops before the first row that it does not understand completely (quotes that hold
 * delimiters, too few or too many cells, words); that row is read as text. Proved equal to the text path by property tests.
 */
export class PlainRows {
  private at = 0;
  private readonly uses: Uint8Array;
  private readonly slots: Uint8Array;
  private readonly scanners: readonly (StampScanner | null)[];
  private readonly timeCells: string[];
  private readonly numbers: readonly PlannedColumn[];
  /** SI = number * factor + offset, per number column; kept flat, since they are met once a cell. */
  private readonly factors: Float64Array;
  private readonly offsets: Float64Array;
  private readonly hasSentinels: Uint8Array;
  /** Bytes of the unit that a column of units, or the word that one of qualities, has in a plain row. */
  private readonly units: ReadonlyMap<number, Uint8Array>;
  private readonly delimiter: number;
  private readonly decimal: number;
  private readonly quote: number;
  private timeIsText = false;
  /** Values of the row being read, SI. */
  private readonly row: Float64Array;
  private readonly quick: QuickRows | null;
  /** How many rows to read without trying the quick way first: it grows while that way gives nothing. */
  private patience = 0;
  private waiting = 0;
  /** Rows taken by the last `take`. */
  taken = 0;

  constructor(
    private readonly plan: TablePlan,
    readonly store: RowStore,
    private readonly encoding: TextEncoding,
  ) {
    const { columns, clock } = plan;
    this.numbers = columns.filter((column) => column.use === "number");
    this.factors = Float64Array.from(this.numbers, ({ reading }) => reading.factor);
    this.offsets = Float64Array.from(this.numbers, ({ reading }) => reading.offset);
    this.hasSentinels = Uint8Array.from(this.numbers, ({ reading }) => (reading.sentinels.length > 0 ? 1 : 0));
    this.units = usualWords(this.numbers);
    this.uses = Uint8Array.from(columns, ({ use, index }) =>
      use === "time" ? TIME : use === "number" ? NUMBER : this.units.has(index) ? UNIT : TEXT,
    );
    this.slots = Uint8Array.from(columns, (column) =>
      column.use === "time" ? clock.columns.indexOf(column.index) : column.use === "number" ? this.numbers.indexOf(column) : 0,
    );
    this.scanners = clock.columns.map((_, i) => (clock.patterns === null ? null : stampScanner(clock.patterns[i], clock.unitSeconds)));
    this.timeCells = clock.columns.map(() => "");
    this.delimiter = plan.cells.separator.kind === "character" ? plan.cells.separator.character.charCodeAt(0) : LF;
    this.decimal = plan.numbers.decimal.charCodeAt(0);
    this.quote = plan.cells.quote.charCodeAt(0);
    this.row = new Float64Array(this.numbers.length);
    const known = this.scanners.flatMap((scanner) => scanner ?? []);
    this.quick =
      known.length === this.scanners.length && this.delimiter !== SPACE && this.units.size === 0
        ? new QuickRows(plan, store, known, this.delimiter)
        : null;
  }

  /** Whether rows of this plan can be plain at all. */
  static canRead(plan: TablePlan): boolean {
    const { separator } = plan.cells;
    return (
      separator.kind === "character" &&
      separator.pairsFrom === undefined &&
      separator.stampAt === undefined &&
      plan.cells.form === undefined &&
      plan.long === null &&
      plan.across === null &&
      !plan.columns.some(({ quality }) => quality !== undefined && plan.columns[quality.index].use === "number") &&
      separator.character.charCodeAt(0) < 128 &&
      plan.columns.length < 256
    );
  }

  /** Reads rows from `from` on; `to` stands behind an LF. @returns where the first row begins that was not read, or `to` */
  take(bytes: Uint8Array, from: number, to: number): number {
    const { store } = this;
    const counted = this.plan.clock.kind === "counted";
    const before = store.count;
    let start = from;
    while (start < to) {
      start = this.takeQuick(bytes, start, to);
      if (start >= to) break;
      this.at = start;
      const time = this.readRow(bytes);
      if (time === NOT_PLAIN || (counted ? this.row.every(Number.isNaN) : Number.isNaN(time))) break;
      store.add(time, this.row);
      start = this.at;
    }
    this.taken = store.count - before;
    return start;
  }

  private takeQuick(bytes: Uint8Array, from: number, to: number): number {
    if (this.quick === null || this.waiting-- > 0) return from;
    const start = this.quick.take(bytes, from, to);
    this.patience = start > from ? 0 : Math.min(64, 2 * this.patience + 1);
    this.waiting = this.patience >> 2;
    return start;
  }

  /** One row from `at` to behind its LF. @returns its time in s, NOT_PLAIN where the row has to be read as text */
  private readRow(bytes: Uint8Array): number {
    const { uses, slots, row, delimiter } = this;
    const last = uses.length - 1;
    let time = 0;
    this.timeIsText = false;
    for (let column = 0; column <= last; column++) {
      const use = uses[column];
      if (use === NUMBER) {
        const value = this.readNumber(bytes, slots[column]);
        if (value === NOT_PLAIN) return NOT_PLAIN;
        row[slots[column]] = value;
      } else if (use === TIME) {
        const value = this.readTime(bytes, slots[column]);
        if (value === NOT_PLAIN) return NOT_PLAIN;
        time += value;
      } else if (use === UNIT ? !this.passUnit(bytes, column) : !this.skipCell(bytes)) return NOT_PLAIN;
      if (column < last) {
        if (bytes[this.at] !== delimiter) return NOT_PLAIN;
        this.at++;
      }
    }
    if (!this.endRow(bytes)) return NOT_PLAIN;
    if (this.timeIsText) return this.plan.clock.parse(this.timeCells);
    return this.timeCells.length === 0 ? Number.NaN : time;
  }

  /** Passes the end of the row; delimiters that end it add nothing. */
  private endRow(bytes: Uint8Array): boolean {
    let byte = bytes[this.at];
    while (byte === this.delimiter || byte === SPACE) byte = bytes[++this.at];
    while (byte === CR) byte = bytes[++this.at];
    if (byte !== LF) return false;
    this.at++;
    return true;
  }

  private readNumber(bytes: Uint8Array, slot: number): number {
    let at = this.at;
    const start = at;
    let byte = bytes[at];
    while (byte === SPACE) byte = bytes[++at];
    const quoted = byte === this.quote;
    if (quoted) byte = bytes[++at];
    const negative = byte === MINUS;
    if (negative || byte === PLUS) byte = bytes[++at];
    let whole = 0;
    const digitsFrom = at;
    let digit = byte - 48;
    while (digit >= 0 && digit <= 9) {
      whole = whole * 10 + digit;
      digit = bytes[++at] - 48;
    }
    let digits = at - digitsFrom;
    let decimals = 0;
    if (bytes[at] === this.decimal && (quoted || this.decimal !== this.delimiter)) {
      const from = ++at;
      for (digit = bytes[at] - 48; digit >= 0 && digit <= 9; digit = bytes[++at] - 48) whole = whole * 10 + digit;
      decimals = at - from;
      digits += decimals;
    }
    if (quoted) {
      if (bytes[at] !== this.quote) return this.readOddCell(bytes, start, slot);
      at++;
    }
    while (bytes[at] === SPACE) at++;
    byte = bytes[at];
    if (digits === 0 || digits > EXACT_DIGITS || (byte !== this.delimiter && byte !== LF && byte !== CR)) {
      return this.readOddCell(bytes, start, slot);
    }
    this.at = at;
    const size = decimals === 0 ? whole : whole / POWERS[decimals];
    const value = negative ? -size : size;
    if (this.hasSentinels[slot] === 1 && this.numbers[slot].reading.sentinels.includes(value)) return Number.NaN;
    return value * this.factors[slot] + this.offsets[slot];
  }

  /** A blank, a word, a long number, an exponent, a unit behind the number: as text, but only this cell. */
  private readOddCell(bytes: Uint8Array, start: number, slot: number): number {
    const cell = this.cellText(bytes, start);
    if (cell === null) return NOT_PLAIN;
    const column = this.numbers[slot];
    if (cell === "" && column.reading.words.size === 0) return Number.NaN;
    const value = readCell(cell, column, this.plan);
    return hasDoubtMark(cell) || (Number.isNaN(value) && isBad(cell, column, this.plan)) ? NOT_PLAIN : value;
  }

  private readTime(bytes: Uint8Array, slot: number): number {
    const scanner = this.scanners[slot];
    const start = this.at;
    if (scanner !== null && !this.timeIsText) {
      let at = start;
      while (bytes[at] === SPACE) at++;
      const quoted = bytes[at] === this.quote;
      const value = scanner.scan(bytes, quoted ? at + 1 : at);
      at = scanner.end;
      if (quoted && bytes[at++] !== this.quote) at = start;
      while (bytes[at] === SPACE) at++;
      const byte = bytes[at];
      if (!Number.isNaN(value) && at > start && (byte === this.delimiter || byte === LF || byte === CR)) {
        this.at = at;
        // A later time cell may turn out odd: then the clock's own `parse` wants this one too.
        if (this.timeCells.length > 1) this.timeSpan(slot, start, at);
        return value;
      }
    }
    return this.timeAsText(bytes, start, slot);
  }

  private readonly spans: number[] = [];
  private timeSpan(slot: number, start: number, end: number): void {
    this.spans[2 * slot] = start;
    this.spans[2 * slot + 1] = end;
  }

  /** The time cells as text, for the clock's own `parse` at the end of the row. */
  private timeAsText(bytes: Uint8Array, start: number, slot: number): number {
    const cell = this.cellText(bytes, start);
    if (cell === null) return NOT_PLAIN;
    if (!this.timeIsText) {
      this.timeIsText = true;
      const end = this.at;
      for (let other = 0; other < this.timeCells.length; other++) {
        if (other === slot || this.spans[2 * other] === undefined || this.spans[2 * other] >= start) continue;
        const earlier = this.cellText(bytes, this.spans[2 * other]);
        if (earlier === null) return NOT_PLAIN;
        this.timeCells[other] = earlier;
      }
      this.at = end;
    }
    this.timeCells[slot] = cell;
    return 0;
  }

  /** The trimmed text of the cell from `start` on, `at` then standing behind it; null where quotes need a closer look. */
  private cellText(bytes: Uint8Array, start: number): string | null {
    const cell = cellTextAt(bytes, start, this.delimiter, this.quote, this.encoding);
    if (cell !== null) this.at = cell.end;
    return cell?.text ?? null;
  }

  /** A unit other than the usual one makes a row of its own kind. */
  private passUnit(bytes: Uint8Array, column: number): boolean {
    const unit = this.units.get(column)!;
    let at = this.at;
    for (let i = 0; i < unit.length; i++) if (bytes[at++] !== unit[i]) return false;
    const byte = bytes[at];
    this.at = at;
    return byte === this.delimiter || byte === LF || byte === CR;
  }

  private skipCell(bytes: Uint8Array): boolean {
    let at = this.at;
    let byte = bytes[at];
    while (byte !== this.delimiter && byte !== LF && byte !== CR) {
      if (byte === this.quote) return this.cellText(bytes, this.at) !== null;
      byte = bytes[++at];
    }
    this.at = at;
    return true;
  }
}
