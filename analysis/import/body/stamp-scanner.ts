/**
 * Reads a stamp of one fixed form straight from bytes. The form is a pattern of the clock reading: YYYY YY MM DD hh mm ss, PP for am or pm,
 * ".f" or ",f" for optional decimals, # for a plain number; all else is literal. Whatever does not fit is left to the clock's own `parse`.
 */
export type StampScanner = {
  /** Seconds; NaN where the bytes from `at` on do not fit. `end` then tells nothing. */
  scan(bytes: Uint8Array, at: number): number;
  /** Where the stamp ended. */
  end: number;
};

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
  return steps === null ? null : fieldScanner(steps);
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
/** Worth of the fields that change from row to row, s; 0 for all others. */
const QUICK_SECONDS = [0, 0, 0, 0, 0, 0, 60, 1, 0, 0];

function fieldScanner(steps: readonly Step[]): StampScanner {
  const ops = Uint8Array.from(steps, (step) => step.op);
  const literals = Uint8Array.from(steps, (step) => step.byte);
  const exact = Uint8Array.from(steps, (step) => (step.exact ? 1 : 0));
  const fields = new Int32Array(10);
  const days = new DayCache();
  const hasDate = steps.some((step) => step.op === DAY);
  const hasHalf = steps.some((step) => step.op === HALF);
  let quickAt = 0;

  /** Fills `fields` from step `first` on; the place behind the stamp, -1 where it does not fit. */
  function scanFields(bytes: Uint8Array, from: number, first: number): number {
    let at = from;
    for (let i = first; i < ops.length; i++) {
      const op = ops[i];
      if (i === quick) quickAt = at;
      if (op === LITERAL) {
        if (bytes[at++] !== literals[i]) return -1;
      } else if (op <= SECOND) {
        let value = bytes[at++] - 48;
        if (!(value >= 0 && value <= 9)) return -1;
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
        fields[FRACTION] = 0;
        fields[0] = 0;
        if (bytes[at] === literals[i]) {
          const start = ++at;
          let value = 0;
          for (let digit = bytes[at] - 48; digit >= 0 && digit <= 9; digit = bytes[++at] - 48) value = value * 10 + digit;
          if (at === start || at - start > 9) return -1;
          fields[FRACTION] = value;
          fields[0] = at - start;
        }
      } else {
        const letter = bytes[at] | 32;
        if ((letter !== 97 && letter !== 112) || (bytes[at + 1] | 32) !== 109) return -1;
        fields[HALF] = letter === 112 ? 12 : 0;
        at += 2;
      }
    }
    return at;
  }

  const withFraction = (whole: number): number => (fields[0] === 0 ? whole : whole + fields[FRACTION] / TENTHS[fields[0]]);

  function secondsOfDay(): number {
    let hour = fields[HOUR];
    if (hasHalf) {
      if (hour < 1 || hour > 12) return Number.NaN;
      hour = (hour % 12) + fields[HALF];
    } else if (hour > 23) return Number.NaN;
    return hour * 3600 + fields[MINUTE] * 60 + fields[SECOND];
  }

  /** The step that reads the quickest field, where nothing but literals and decimals follow it: what stands before it seldom changes. */
  const quick = quickStep(ops);
  const known = new Uint8Array(32);
  let knownLength = 0;
  let knownSeconds = 0;

  /** Remembers the bytes before the quickest field with what they are worth. */
  function remember(bytes: Uint8Array, from: number, whole: number): void {
    knownLength = 0;
    const length = quickAt - from;
    if (quick < 0 || length > known.length || whole - whole !== 0) return;
    for (let i = 0; i < length; i++) known[i] = bytes[from + i];
    knownSeconds = whole - fields[ops[quick]] * QUICK_SECONDS[ops[quick]];
    knownLength = length;
  }

  function isKnown(bytes: Uint8Array, from: number): boolean {
    if (knownLength === 0) return false;
    for (let i = knownLength - 1; i >= 0; i--) if (bytes[from + i] !== known[i]) return false;
    return true;
  }

  return {
    end: 0,
    scan(bytes, at) {
      if (isKnown(bytes, at)) {
        const end = scanFields(bytes, at + knownLength, quick);
        if (end < 0) return Number.NaN;
        this.end = end;
        return withFraction(knownSeconds + fields[ops[quick]] * QUICK_SECONDS[ops[quick]]);
      }
      const end = scanFields(bytes, at, 0);
      if (end < 0) return Number.NaN;
      this.end = end;
      const date = hasDate ? days.seconds(fields[YEAR] || fullYear(fields[SHORT_YEAR]), fields[MONTH], fields[DAY]) : 0;
      const whole = date + secondsOfDay();
      remember(bytes, at, whole);
      return withFraction(whole);
    },
  };
}

/** Index of the last field where it is one of seconds or minutes and only literals and decimals follow; -1 where it is another. */
function quickStep(ops: Uint8Array): number {
  let last = ops.length - 1;
  while (last >= 0 && (ops[last] === LITERAL || ops[last] === FRACTION)) last--;
  return last >= 0 && QUICK_SECONDS[ops[last]] > 0 ? last : -1;
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

/** Decimal digits with at most one point, up to 15 in all: exact as Number() is, see plain-number.ts. */
function numberScanner(unitSeconds: number): StampScanner {
  return {
    end: 0,
    scan(bytes, from) {
      let at = from;
      let whole = 0;
      let digit = bytes[at] - 48;
      while (digit >= 0 && digit <= 9) {
        whole = whole * 10 + digit;
        digit = bytes[++at] - 48;
      }
      const digits = at - from;
      let decimals = 0;
      if (bytes[at] === 46) {
        const start = ++at;
        for (digit = bytes[at] - 48; digit >= 0 && digit <= 9; digit = bytes[++at] - 48) whole = whole * 10 + digit;
        decimals = at - start;
      }
      if (digits === 0 || digits + decimals > 15) return Number.NaN;
      this.end = at;
      return (decimals === 0 ? whole : whole / 10 ** decimals) * unitSeconds;
    },
  };
}
