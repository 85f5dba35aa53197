import { decodeText, type TextEncoding } from "../encoding";

const LF = 10;
const CR = 13;
const SPACE = 32;
/** Bytes; a longer cell is read with its row as text. */
const LONGEST = 200;

/** The trimmed text of the cell that begins at `start`, and the place behind it; null where quotes need a closer look. */
export function cellTextAt(
  bytes: Uint8Array,
  start: number,
  delimiter: number,
  quote: number,
  encoding: TextEncoding,
): { readonly text: string; readonly end: number } | null {
  let from = start;
  while (bytes[from] === SPACE) from++;
  const quoted = bytes[from] === quote;
  if (quoted) from++;
  let at = from;
  for (let byte = bytes[at]; byte !== LF && (quoted ? byte !== quote : byte !== delimiter && byte !== CR); byte = bytes[++at]) {
    if (byte === quote || byte === 0 || at - from > LONGEST) return null;
  }
  let to = at;
  if (quoted) {
    if (bytes[at] !== quote) return null;
    at++;
    while (bytes[at] === SPACE) at++;
    if (bytes[at] !== delimiter && bytes[at] !== LF && bytes[at] !== CR) return null;
  }
  while (to > from && bytes[to - 1] === SPACE) to--;
  return { text: shortText(bytes, from, to) ?? decodeText(bytes.subarray(from, to), encoding).trim(), end: at };
}

/** A few ASCII bytes as text without a decoder; null where there is more to it. Apostrophes and "=" mark a value kept as text. */
function shortText(bytes: Uint8Array, from: number, to: number): string | null {
  if (to - from > 24) return null;
  let text = "";
  for (let i = from; i < to; i++) {
    if (bytes[i] > 127) return null;
    text += String.fromCharCode(bytes[i]);
  }
  return text;
}
