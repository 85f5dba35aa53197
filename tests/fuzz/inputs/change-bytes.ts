import fc from "fast-check";

/** One change of a file's bytes; `at` and `length` are shares of the file, so that a change means the same wherever a file was cut. */
export type Change = {
  readonly kind: (typeof KINDS)[number];
  readonly at: number;
  readonly length: number;
  readonly bit: number;
  readonly token: number;
};

const KINDS = [
  "flip-bit",
  "cut-off",
  "delete",
  "repeat",
  "token",
  "cell",
  "swap-lines",
  "repeat-line",
  "other-delimiter",
  "utf-16le",
  "utf-16be",
  "latin",
  "splice",
] as const;

/** What stands badly in a cell, a heading or a key: each was chosen because some reader of text, numbers, dates or markup trips over it. */
const TOKENS: readonly string[] = [
  ...'\0 \t \r \n , ; | " \' " "" \\ = + - @ # . : / ( [ ] ) \ufeff \ufffd \u2028 \u202e \u00b0 \u00b5 \u221e'.split(" "),
  " ",
  '""""',
  '","',
  '"\n',
  "\r\n\r\n",
  "\u00a0",
  "\u{1f4a7}",
  "1e999",
  "-1e999",
  "1e-999",
  "-0",
  "NaN",
  "Infinity",
  "0x1F",
  "1_000",
  "1,000,000.5",
  "1.000.000,5",
  "1e",
  "--1",
  "9007199254740993",
  "3.4e38",
  "1e300",
  "99999999999999999999",
  "2024-02-30",
  "1900-02-29",
  "9999-12-31 23:59:59",
  "0000-00-00 00:00:00",
  "2024-03-31 02:30:00",
  "24:00:00",
  "23:59:60",
  "12:00 AM",
  "13:00 PM",
  "31/12/2024",
  "12/31/2024",
  "2024-W01-1",
  "+275760-09-13",
  "-271821-04-20",
  "1970-01-01T00:00:00+99:99",
  "44927.5",
  "1700000000",
  "1700000000000",
  "__proto__",
  "constructor",
  "toString",
  "hasOwnProperty",
  "=HYPERLINK(0)",
  "<img src=x onerror=x>",
  "javascript:x",
  "Pressure (psi)",
  "Flow (gpm)",
  "Time",
  "Date",
  "bar",
  "psi;bar",
  "(((((",
  "4-20 mA",
  "Pressure ()",
  "[]",
  "UTC+25",
  "sep=;",
  "# ",
];
export const LONE_SURROGATE = Uint8Array.of(0xed, 0xa0, 0x80);

const utf8 = (text: string) => new TextEncoder().encode(text);
const plain = (bytes: Uint8Array) => new TextDecoder().decode(bytes);

export const change: fc.Arbitrary<Change> = fc.record({
  kind: fc.constantFrom(...KINDS),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.double({ min: 0, max: 1, noNaN: true }),
  bit: fc.nat(7),
  token: fc.nat(TOKENS.length),
});

const joined = (...parts: Uint8Array[]) => Uint8Array.from(Buffer.concat(parts));
const tokenBytes = (i: number) => (i === TOKENS.length ? LONE_SURROGATE : utf8(TOKENS[i]));

/** The bytes with one change made; `other` is what a splice takes its end from. */
export function changed(bytes: Uint8Array, { kind, at, length, bit, token }: Change, other: Uint8Array): Uint8Array {
  const from = Math.min(bytes.length, Math.floor(at * bytes.length));
  const short = from + 1 + Math.floor(length ** 3 * (bytes.length - from));
  const word = tokenBytes(token);
  switch (kind) {
    case "flip-bit":
      return bytes.map((byte, i) => (i === from ? byte ^ (1 << bit) : byte));
    case "cut-off":
      return bytes.slice(0, from);
    case "delete":
      return joined(bytes.slice(0, from), bytes.slice(short));
    case "repeat":
      return joined(bytes.slice(0, short), bytes.slice(from));
    case "token":
      return joined(bytes.slice(0, from), word, bytes.slice(from));
    case "cell":
      return otherCell(bytes, from, word);
    case "swap-lines":
    case "repeat-line":
      return otherLines(bytes, at, length, kind);
    case "other-delimiter":
      return bytes.map((byte) => (byte === 0x2c ? [0x3b, 0x09, 0x7c, 0x20, 0x3a, 0x2e, 0x22, 0x0a][bit] : byte));
    case "utf-16le":
      return Uint8Array.from(Buffer.from((bit & 1 ? "\ufeff" : "") + plain(bytes), "utf16le"));
    case "utf-16be":
      return Uint8Array.from(Buffer.from((bit & 1 ? "\ufeff" : "") + plain(bytes), "utf16le").swap16());
    case "latin":
      return Uint8Array.from(Buffer.from(plain(bytes), "latin1"));
    case "splice":
      return joined(bytes.slice(0, from), other.slice(Math.floor(length * other.length)));
  }
}

const ENDS_CELL = new Set([0x2c, 0x3b, 0x09, 0x7c, 0x0a, 0x0d]);

function otherCell(bytes: Uint8Array, at: number, word: Uint8Array): Uint8Array {
  let from = at;
  while (from > 0 && !ENDS_CELL.has(bytes[from - 1])) from--;
  let to = at;
  while (to < bytes.length && !ENDS_CELL.has(bytes[to])) to++;
  return joined(bytes.slice(0, from), word, bytes.slice(to));
}

function otherLines(bytes: Uint8Array, at: number, length: number, kind: "swap-lines" | "repeat-line"): Uint8Array {
  const lines = Buffer.from(bytes).toString("latin1").split("\n");
  const [a, b] = [at, length].map((share) => Math.min(lines.length - 1, Math.floor(share * lines.length)));
  if (kind === "swap-lines") [lines[a], lines[b]] = [lines[b], lines[a]];
  else lines.splice(a, 0, ...Array.from({ length: 1 + Math.floor(length * 40) }, () => lines[a]));
  return Uint8Array.from(Buffer.from(lines.join("\n"), "latin1"));
}

/** One of the bases with up to six changes. */
export const changedBytes = (bases: readonly Uint8Array[]): fc.Arbitrary<Uint8Array> =>
  fc
    .tuple(fc.nat(bases.length - 1), fc.nat(bases.length - 1), fc.array(change, { maxLength: 6 }))
    .map(([base, other, changes]) => changes.reduce((bytes, one) => changed(bytes, one, bases[other]).slice(0, MOST_BYTES), bases[base]));

/** Changes upon changes grow a file: above this a try says no more and takes longer. */
const MOST_BYTES = 300_000;
