import { decodeDosText, isDosText } from "./dos-text";
import { textDecoder, utf8Bytes } from "./platform";

export type TextEncoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252" | "ibm850";
export type EncodingReading = {
  readonly encoding: TextEncoding;
  /** Length of the byte-order mark. */
  readonly skip: number;
};

const SNIFFED = 4096;

/**
 * Encoding of a text by its first bytes: byte-order mark, else UTF-16 by where its zero bytes stand, else UTF-8 if the bytes are
 * well-formed UTF-8, else Windows-1252 or, where its letters stand so, code page 850. Bytes [n]; a character cut by the end of `head` does not count against UTF-8.
 */
export function findEncoding(head: Uint8Array): EncodingReading {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: "utf-8", skip: 3 };
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: "utf-16le", skip: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: "utf-16be", skip: 2 };
  const zeros = zeroBytes(head);
  if (zeros.odd > 0.3 && zeros.even < 0.1) return { encoding: "utf-16le", skip: 0 };
  if (zeros.even > 0.3 && zeros.odd < 0.1) return { encoding: "utf-16be", skip: 0 };
  return { encoding: isUtf8(head) ? "utf-8" : isDosText(head) ? "ibm850" : "windows-1252", skip: 0 };
}

/** Share of zero bytes at even and at odd places: plain text in UTF-16 has nearly only zeros at one of them. */
function zeroBytes(head: Uint8Array): { even: number; odd: number } {
  const pairs = Math.min(head.length, SNIFFED) >> 1;
  let even = 0;
  let odd = 0;
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) even++;
    if (head[2 * i + 1] === 0) odd++;
  }
  return pairs === 0 ? { even: 0, odd: 0 } : { even: even / pairs, odd: odd / pairs };
}

/** Well-formed UTF-8, leaving out a last character that is cut off. */
export function isUtf8(bytes: Uint8Array): boolean {
  try {
    textDecoder("utf-8", true).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

const utf8 = textDecoder("utf-8", true);
const western = textDecoder("windows-1252");
export const isNarrow = (encoding: TextEncoding): encoding is "windows-1252" | "ibm850" =>
  encoding === "windows-1252" || encoding === "ibm850";

/** Text in which every byte is a character. */
export const decodeNarrow = (bytes: Uint8Array, encoding: TextEncoding): string =>
  encoding === "ibm850" ? decodeDosText(bytes) : western.decode(bytes);

/** Text of some bytes of a line: UTF-8 where they are that, else Windows-1252, since a stray degree sign may come late in a file. */
export function decodeText(bytes: Uint8Array, encoding: TextEncoding): string {
  if (isNarrow(encoding)) return decodeNarrow(bytes, encoding);
  try {
    return utf8.decode(bytes);
  } catch {
    return western.decode(bytes);
  }
}

/**
 * The chunks of a file as bytes in which every ASCII character is itself: the byte-order mark gone, UTF-16 turned into UTF-8.
 * The chunks given out may share memory with those taken in.
 */
export async function* plainBytes(chunks: AsyncIterable<Uint8Array>, reading: EncodingReading): AsyncGenerator<Uint8Array> {
  const wide = reading.encoding === "utf-16le" || reading.encoding === "utf-16be";
  const decoder = wide ? textDecoder(reading.encoding) : null;
  let skip = reading.skip;
  for await (const chunk of chunks) {
    const from = Math.min(skip, chunk.length);
    skip -= from;
    const bytes = from === 0 ? chunk : chunk.subarray(from);
    const plain = decoder === null ? bytes : utf8Bytes(decoder.decode(bytes, { stream: true }));
    if (plain.length > 0) yield plain;
  }
  const rest = decoder?.decode() ?? "";
  if (rest !== "") yield utf8Bytes(rest);
}

/** Loggers pad blocks with NUL bytes, which stand for nothing. */
export function withoutNul(bytes: Uint8Array): Uint8Array {
  return bytes.includes(0) ? bytes.filter((byte) => byte !== 0) : bytes;
}
