import type { PlannedColumn, TablePlan } from "../table-plan";
import type { RowStore } from "./row-store";
import type { StampCells, StampScanner } from "./stamp-scanner";

const LF = 10;
const CR = 13;
const SPACE = 32;
const MINUS = 45;

/** Rows worked on at a time: all their cells stay in the processor's nearest cache. */
const BLOCK = 512;
/** Rows tried at least after one whose stamp was not understood. */
const FEWEST = 8;
/** Digits whose integer is below 2^31. */
const MOST_DIGITS = 9;
const POWERS = Float64Array.from({ length: MOST_DIGITS + 1 }, (_, i) => 10 ** i);

const TIME = 0;
const NUMBER = 1;
const TEXT = 2;

/**
 * The first and narrowest way to read rows: stamps of the one known form, numbers of a few digits, blanks. It knows nothing else and stops before
 * the first row that is anything else; what it gives is what `PlainRows` gives, to the last bit (an integer over an exact power of ten rounds once).
 */
export class QuickRows {
  private readonly uses: Uint8Array;
  private readonly slots: Uint8Array;
  private readonly numbers: readonly PlannedColumn[];
  /** Cells of the block as the file has them, then in SI; shape [column][BLOCK] one after the other. */
  private readonly cells: Float64Array;
  private readonly columns: readonly Float64Array[];
  private readonly times = new Float64Array(BLOCK);
  private readonly starts = new Int32Array(BLOCK);
  /** Where the cells of the clock stand, shape [column of the clock][BLOCK] one after the other, and how long the last of each column was. */
  private readonly begins: Int32Array;
  private readonly ends: Int32Array;
  private readonly stamps: readonly StampCells[];
  private readonly stampLengths: Int32Array;
  /** Rows whose numbers are read before their stamps are looked at: few while stamps are odd, so that nothing is read again and again. */
  private most = BLOCK;
  private readonly counted: boolean;
  private readonly delimiter: number;
  /** -1 where the delimiter is the decimal mark: then a number in plain sight has no decimals. */
  private readonly decimal: number;
  private readonly quote: number;
  private at = 0;

  constructor(
    plan: TablePlan,
    private readonly store: RowStore,
    private readonly scanners: readonly StampScanner[],
    delimiter: number,
  ) {
    this.numbers = plan.columns.filter((column) => column.use === "number");
    this.uses = Uint8Array.from(plan.columns, ({ use }) => (use === "time" ? TIME : use === "number" ? NUMBER : TEXT));
    this.slots = Uint8Array.from(plan.columns, (column) =>
      column.use === "time" ? plan.clock.columns.indexOf(column.index) : column.use === "number" ? this.numbers.indexOf(column) : 0,
    );
    this.cells = new Float64Array(BLOCK * this.numbers.length);
    this.columns = this.numbers.map((_, i) => this.cells.subarray(i * BLOCK, (i + 1) * BLOCK));
    this.begins = new Int32Array(BLOCK * scanners.length);
    this.ends = new Int32Array(BLOCK * scanners.length);
    const block = (all: Int32Array, i: number) => all.subarray(i * BLOCK, (i + 1) * BLOCK);
    this.stamps = scanners.map((_, i) => ({ begins: block(this.begins, i), ends: block(this.ends, i) }));
    this.stampLengths = new Int32Array(scanners.length);
    this.counted = plan.clock.kind === "counted";
    this.delimiter = delimiter;
    const decimal = plan.numbers.decimal.charCodeAt(0);
    this.decimal = decimal === delimiter ? -1 : decimal;
    this.quote = plan.cells.quote.charCodeAt(0);
  }

  /** Reads rows from `from` on into the store; `to` stands behind an LF. @returns where the first row begins that was not read, or `to` */
  take(bytes: Uint8Array, from: number, to: number): number {
    this.at = from;
    for (;;) {
      const { most } = this;
      const scanned = this.scan(bytes, to, most);
      const rows = this.readStamps(bytes, scanned);
      this.most = rows < scanned ? Math.max(FEWEST, 2 * rows) : Math.min(BLOCK, 2 * most);
      if (rows < scanned) this.at = this.starts[rows];
      if (rows > 0) this.keep(rows);
      if (rows < most) return this.at;
    }
  }

  /** Puts the instants of the rows into `times`. @returns how many rows have one that is understood, up to the first that has not */
  private readStamps(bytes: Uint8Array, scanned: number): number {
    const { scanners, stamps, times } = this;
    times.fill(this.counted ? Number.NaN : 0, 0, scanned);
    let rows = scanned;
    for (let i = 0; i < scanners.length; i++) {
      const scanner = scanners[i];
      const { begins, ends } = stamps[i];
      let row = 0;
      for (;;) {
        row = scanner.addAlike(bytes, stamps[i], row, rows, times);
        if (row >= rows) break;
        let at = begins[row];
        while (bytes[at] === SPACE) at++;
        const value = scanner.scan(bytes, at);
        if (Number.isNaN(value)) break;
        at = scanner.end;
        while (bytes[at] === SPACE) at++;
        if (at !== ends[row]) break;
        times[row++] += value;
      }
      rows = row;
    }
    return rows;
  }

  private keep(rows: number): void {
    for (let i = 0; i < this.columns.length; i++) {
      const { sentinels, words } = this.numbers[i].reading;
      const column = this.columns[i];
      const blank = words.get("");
      if (blank !== undefined) for (let k = 0; k < rows; k++) if (Number.isNaN(column[k])) column[k] = blank;
      if (sentinels.length > 0) for (let k = 0; k < rows; k++) if (sentinels.includes(column[k])) column[k] = Number.NaN;
    }
    this.store.addMany(this.times, this.columns, this.numbers, rows);
  }

  /** Numbers of rows from `at` on, and where their stamps stand; `at` then stands behind the last of them. @returns how many */
  private scan(bytes: Uint8Array, to: number, most: number): number {
    const { uses, slots, cells, starts, begins, ends, stampLengths, delimiter, decimal, quote, counted } = this;
    const last = uses.length - 1;
    let start = this.at;
    let row = 0;
    rows: for (; row < most && start < to; row++) {
      let at = start;
      for (let column = 0; column <= last; column++) {
        let byte = bytes[at];
        const use = uses[column];
        if (use === NUMBER) {
          while (byte === SPACE) byte = bytes[++at];
          const negative = byte === MINUS;
          if (negative) byte = bytes[++at];
          let whole = byte - 48;
          if (whole >= 0 && whole <= 9) {
            const digitsFrom = at;
            byte = bytes[++at];
            while ((byte - 48) >>> 0 <= 9) {
              whole = (Math.imul(whole, 10) + byte - 48) | 0;
              byte = bytes[++at];
            }
            let digits = at - digitsFrom;
            let decimals = 0;
            if (byte === decimal) {
              const decimalsFrom = ++at;
              byte = bytes[at];
              while ((byte - 48) >>> 0 <= 9) {
                whole = (Math.imul(whole, 10) + byte - 48) | 0;
                byte = bytes[++at];
              }
              decimals = at - decimalsFrom;
              digits += decimals;
            }
            if (digits > MOST_DIGITS) break rows;
            const size = whole / POWERS[decimals];
            cells[slots[column] * BLOCK + row] = negative ? -size : size;
          } else if (negative) break rows;
          else cells[slots[column] * BLOCK + row] = Number.NaN;
        } else if (use === TIME) {
          const slot = slots[column];
          const place = slot * BLOCK + row;
          begins[place] = at;
          // where it ends shows without a look at its bytes, as long as all are of one length
          const behind = at + stampLengths[slot];
          byte = bytes[behind];
          if (behind < to && (byte === delimiter || byte === LF || byte === CR)) at = behind;
          else {
            byte = bytes[at];
            while (byte !== delimiter && byte !== LF && byte !== CR) byte = bytes[++at];
            stampLengths[slot] = at - begins[place];
          }
          ends[place] = at;
        } else {
          while (byte !== delimiter && byte !== LF && byte !== CR) {
            if (byte === quote) break rows; // it may hold delimiters
            byte = bytes[++at];
          }
        }
        while (byte === SPACE) byte = bytes[++at];
        if (column < last) {
          if (byte !== delimiter) break rows;
          at++;
        } else {
          while (byte === delimiter || byte === SPACE) byte = bytes[++at];
          while (byte === CR) byte = bytes[++at];
          if (byte !== LF) break rows;
          at++;
        }
      }
      if (counted && this.isBlank(row)) break;
      starts[row] = start;
      start = at;
    }
    this.at = start;
    return row;
  }

  private isBlank(row: number): boolean {
    return this.columns.every((column) => Number.isNaN(column[row]));
  }
}
