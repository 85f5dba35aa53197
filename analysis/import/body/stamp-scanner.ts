import { KeptBytes } from "./kept-bytes";
import { numberScanner } from "./number-scanner";

/**
 * Reads a stamp of one fixed form straight from bytes. The form is a pattern of the clock reading: YYYY YY MM DD hh mm ss, PP for am or pm,
 * ".f" or ",f" for optional decimals, # for a plain number; all else is literal. Whatever does not fit is left to the clock's own `parse`.
 */
export type StampScanner = {
  /** Seconds; NaN where the bytes from `at` on do not fit. `end` then tells nothing. */
  scan(bytes: Uint8Array, at: number): number;
  /** Where the stamp ended. */
  end: number;
  /**
   * Adds to `times` the seconds of stamps that go on from the one read last and fill their cells: the first rows of [from, to), as far as this shows at a
   * glance. @returns the first row that was left
   */
  addAlike(bytes: Uint8Array, cells: StampCells, from: number, to: number, times: Float64Array): number;
};

/** Where the stamps of some rows begin, and the place behind each. */
export type StampCells = { readonly begins: Int32Array; readonly ends: Int32Array };

const LITERAL = 0;
const YEAR = 1;
const SHORT_YEAR = 2;
const MONTH = 3;
const DAY = 4;
const HOUR = 5;
const MINUTE = 6;
const SECOND = 7;
const FRACTION = 8;
const HALF = 9;

type Step = { readonly op: number; readonly byte: number; readonly exact: boolean };

const FIELDS: readonly (readonly [string, number])[] = [
  ["YYYY", YEAR],
  ["YY", SHORT_YEAR],
  ["MM", MONTH],
  ["DD", DAY],
  ["hh", HOUR],
  ["mm", MINUTE],
  ["ss", SECOND],
  ["PP", HALF],
];

/** Null for a pattern this scanner does not know. */
export function stampScanner(pattern: string, unitSeconds: number): StampScanner | null {
  if (pattern === "#") return numberScanner(unitSeconds);
  const steps = compile(pattern);
  return steps === null ? null : new FieldScanner(steps);
}

function compile(pattern: string): readonly Step[] | null {
  const steps: Step[] = [];
  let at = 0;
  while (at < pattern.length) {
    const field = FIELDS.find(([letters]) => pattern.startsWith(letters, at));
    if (field !== undefined) {
      at += field[0].length;
      // Without a mark behind it a field has exactly two digits: "hhmmss".
      steps.push({ op: field[1], byte: 0, exact: /^[YMDhms]/.test(pattern.slice(at)) });
    } else if (pattern[at + 1] === "f") {
      steps.push({ op: FRACTION, byte: pattern.charCodeAt(at), exact: false });
      at += 2;
    } else {
      if (pattern.charCodeAt(at) > 127) return null;
      steps.push({ op: LITERAL, byte: pattern.charCodeAt(at), exact: false });
      at++;
    }
  }
  return steps;
}

const TENTHS = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9];
const LEAST = [0, 1, 0, 1, 1, 0, 0, 0];
const MOST = [0, 9999, 99, 12, 31, 24, 59, 59];

/** Bytes are kept up to the second where so many rows share a minute, else up to the minute. */
const OFTEN = 8;

/**
 * Stamps of rows that follow each other differ in their last figures only: the bytes up to the minute or the second are compared with those of the stamp
 * before, and what they stand for is kept. Only what follows is read; where anything differs the whole stamp is.
 */
class FieldScanner implements StampScanner {
  end = 0;
  private readonly ops: Uint8Array;
  private readonly literals: Uint8Array;
  private readonly exact: Uint8Array;
  private readonly fields = new Int32Array(10);
  private readonly days = new DayCache();
  private readonly hasDate: boolean;
  private readonly hasHalf: boolean;
  /** Place in `ops` of the field that the kept bytes stop before; 0 where nothing is kept. */
  private split: number;
  /** Places in `ops` of the minute and of the second that kept bytes may stop before. */
  private readonly minute: number;
  private readonly second: number;
  private readonly kept = new KeptBytes();
  /** Start of the day of the kept bytes, s. */
  private date = 0;
  /** Instant of the kept bytes, s, where whole seconds of two figures may follow them to the end of the stamp; else NaN. */
  private minuteBegins = Number.NaN;
  private readonly endsInSeconds: boolean;
  private sinceMiss = OFTEN * 60;

  constructor(steps: readonly Step[]) {
    this.ops = Uint8Array.from(steps, (step) => step.op);
    this.literals = Uint8Array.from(steps, (step) => step.byte);
    this.exact = Uint8Array.from(steps, (step) => (step.exact ? 1 : 0));
    this.hasDate = steps.some((step) => step.op === DAY);
    this.hasHalf = steps.some((step) => step.op === HALF);
    // the date may stand behind the time of day: then nothing is kept
    const firstOf = (op: number) => (steps.slice(0, this.ops.indexOf(op)).some((s) => s.op === HOUR) ? this.ops.indexOf(op) : 0);
    const dateBehind =
      this.hasDate && this.ops.lastIndexOf(HOUR) < Math.max(...[YEAR, SHORT_YEAR, MONTH, DAY].map((op) => this.ops.lastIndexOf(op)));
    this.minute = dateBehind ? 0 : Math.max(0, firstOf(MINUTE));
    this.second = dateBehind ? 0 : Math.max(this.minute, firstOf(SECOND));
    this.split = this.second;
    const last = this.ops.lastIndexOf(SECOND);
    this.endsInSeconds = steps.slice(last + 1).every(({ op }) => op === FRACTION);
  }

  scan(bytes: Uint8Array, at: number): number {
    if (!this.kept.isAt(bytes, at)) return this.scanWhole(bytes, at);
    this.sinceMiss++;
    const end = this.scanFields(bytes, at + this.kept.length, this.split);
    if (end < 0) return Number.NaN;
    this.end = end;
    return this.value();
  }

  addAlike(bytes: Uint8Array, { begins, ends }: StampCells, from: number, to: number, times: Float64Array): number {
    const { kept, minuteBegins } = this;
    const { length, places } = kept;
    if (length === 0 || Number.isNaN(minuteBegins)) return from;
    const view = kept.viewOf(bytes);
    const [a, b, c, d, e, f] = kept.words;
    const [, second, third, fourth, fifth, sixth] = places;
    let row = from;
    for (; row < to; row++) {
      const at = begins[row];
      const figures = at + length;
      if (ends[row] !== figures + 2) break;
      if (view.getInt32(at, true) !== a || view.getInt32(at + second, true) !== b || view.getInt32(at + third, true) !== c) break;
      if (view.getInt32(at + fourth, true) !== d || view.getInt32(at + fifth, true) !== e || view.getInt32(at + sixth, true) !== f) break;
      const tens = bytes[figures] - 48;
      const ones = bytes[figures + 1] - 48;
      if (tens < 0 || tens > 5 || ones < 0 || ones > 9) break;
      times[row] += minuteBegins + tens * 10 + ones;
    }
    this.sinceMiss += row - from;
    return row;
  }

  private scanWhole(bytes: Uint8Array, from: number): number {
    this.kept.length = 0;
    if (this.sinceMiss < OFTEN) this.split = this.minute;
    else if (this.sinceMiss >= OFTEN * 60) this.split = this.second;
    this.sinceMiss = 0;
    const middle = this.scanFields(bytes, from, 0, this.split);
    if (middle < 0) return Number.NaN;
    const end = this.scanFields(bytes, middle, this.split);
    if (end < 0) return Number.NaN;
    const { fields, ops, split } = this;
    this.date = this.hasDate ? this.days.seconds(fields[YEAR] || fullYear(fields[SHORT_YEAR]), fields[MONTH], fields[DAY]) : 0;
    this.end = end;
    this.kept.keep(bytes, from, middle);
    this.minuteBegins = this.endsInSeconds && ops[split] === SECOND ? this.date + this.secondsOfDay() - fields[SECOND] : Number.NaN;
    return this.value();
  }

  private value(): number {
    const { fields } = this;
    const whole = this.date + this.secondsOfDay();
    return fields[0] === 0 ? whole : whole + fields[FRACTION] / TENTHS[fields[0]];
  }

  private secondsOfDay(): number {
    const { fields } = this;
    let hour = fields[HOUR];
    if (this.hasHalf) {
      if (hour < 1 || hour > 12) return Number.NaN;
      hour = (hour % 12) + fields[HALF];
    } else if (hour > 23) return Number.NaN;
    return hour * 3600 + fields[MINUTE] * 60 + fields[SECOND];
  }

  /** Fills `fields` by the steps [first, last); the place behind them, -1 where they do not fit. */
  private scanFields(bytes: Uint8Array, from: number, first: number, last = this.ops.length): number {
    const { ops, literals, exact, fields } = this;
    let at = from;
    for (let i = first; i < last; i++) {
      const op = ops[i];
      if (op === LITERAL) {
        if (bytes[at++] !== literals[i]) return -1;
      } else if (op <= SECOND) {
        const high = bytes[at] - 48;
        if (!(high >= 0 && high <= 9)) return -1;
        let value = high;
        at++;
        const second = bytes[at] - 48;
        if (second >= 0 && second <= 9) {
          value = value * 10 + second;
          at++;
        } else if (exact[i] === 1 || op === YEAR || op === SHORT_YEAR) return -1;
        if (op === YEAR) {
          const third = bytes[at++] - 48;
          const fourth = bytes[at++] - 48;
          if (!(third >= 0 && third <= 9 && fourth >= 0 && fourth <= 9)) return -1;
          value = value * 100 + third * 10 + fourth;
        }
        if (value < LEAST[op] || value > MOST[op]) return -1;
        fields[op] = value;
      } else if (op === FRACTION) {
        const end = this.scanFraction(bytes, at, literals[i]);
        if (end < 0) return -1;
        at = end;
      } else {
        const letter = bytes[at] | 32;
        if ((letter !== 97 && letter !== 112) || (bytes[at + 1] | 32) !== 109) return -1;
        fields[HALF] = letter === 112 ? 12 : 0;
        at += 2;
      }
    }
    return at;
  }

  /** Decimals behind their mark, where they are there. */
  private scanFraction(bytes: Uint8Array, from: number, mark: number): number {
    const { fields } = this;
    fields[FRACTION] = 0;
    fields[0] = 0;
    if (bytes[from] !== mark) return from;
    let at = from + 1;
    let value = 0;
    for (let digit = bytes[at] - 48; digit >= 0 && digit <= 9; digit = bytes[++at] - 48) value = value * 10 + digit;
    if (at === from + 1 || at - from > 10) return -1;
    fields[FRACTION] = value;
    fields[0] = at - from - 1;
    return at;
  }
}

const fullYear = (short: number) => (short < 70 ? 2000 + short : 1900 + short);

/** Seconds at the start of a day as if UTC; remembers the last day, since rows of one day follow each other. */
class DayCache {
  private key = -1;
  private value = Number.NaN;

  seconds(year: number, month: number, day: number): number {
    const key = (year * 16 + month) * 32 + day;
    if (key !== this.key) {
      this.key = key;
      const at = Date.UTC(year, month - 1, day);
      // 31 June is no day: Date.UTC would call it 1 July.
      this.value = new Date(at).getUTCDate() === day && year >= 100 ? at / 1000 : Number.NaN;
    }
    return this.value;
  }
}
