import { decodeNarrow, type EncodingReading, findEncoding, isNarrow, isUtf8, plainBytes, withoutNul } from "./encoding";
import type { LogFile } from "./import-log";
import { textDecoder } from "./platform";

/** A line of a file with its number, counted from 1 as an editor counts. */
export type TextLine = { readonly line: number; readonly text: string };

/** What was seen of a file before the bulk of it is read. */
export type Survey = {
  readonly encoding: EncodingReading;
  /** Lines of the head; the last one is whole. */
  readonly head: readonly TextLine[];
  /** Whether the head is the whole file. */
  readonly complete: boolean;
  /** Whole lines from further on and from the very end; their numbers are not known yet. Empty where the head is the whole file. */
  readonly later: readonly string[];
  readonly headBytes: Uint8Array;
  readonly hasNul: boolean;
  /** The last few lines of the file, blank ones too; empty where the head is the whole file. */
  readonly tail: readonly string[];
  /** Lines end with CR alone. */
  readonly carriageReturns: boolean;
};

const HEAD_BYTES = 128 * 1024;
const LONGEST_HEAD = 4 * 1024 * 1024;
const PIECE_BYTES = 8 * 1024;
const PIECES = 6;
/** Lines kept of each piece: enough to know the form by, and each is looked at many times. */
const PIECE_LINES = 48;
const TAIL_LINES = 6;

/** Reads the head of a file, and pieces from its middle and its end. At most one pass over the file. */
export async function surveyFile(file: LogFile): Promise<Survey> {
  const reader = new PieceReader(file.bytes);
  if (file.slice !== undefined && file.bytes > 4 * HEAD_BYTES) await readBySlices(file, file.slice, reader);
  else for await (const chunk of file.open()) reader.take(chunk);
  return describe(reader);
}

async function readBySlices(file: LogFile, slice: NonNullable<LogFile["slice"]>, reader: PieceReader): Promise<void> {
  let at = 0;
  while (at < file.bytes && !reader.headIsFull()) {
    const piece = await slice(at, Math.min(file.bytes, at + HEAD_BYTES));
    if (piece.length === 0) break;
    reader.take(piece);
    at += piece.length;
  }
  for (const start of reader.pieceStarts) {
    if (start < at) continue;
    reader.skipTo(start);
    reader.take(await slice(start, Math.min(file.bytes, start + PIECE_BYTES)));
    at = start + PIECE_BYTES;
  }
}

/** Keeps the head and some pieces of the bytes that go by. */
class PieceReader {
  readonly pieceStarts: readonly number[];
  private readonly pieces = new Map<number, Uint8Array[]>();
  private readonly headChunks: Uint8Array[] = [];
  private headLength = 0;
  private headHasLine = false;
  private at = 0;

  constructor(bytes: number) {
    const even = (n: number) => n - (n % 2); // a piece of UTF-16 must not start in the middle of a character
    const inner = Array.from({ length: PIECES }, (_, i) => even(Math.floor((bytes * (i + 1)) / (PIECES + 1))));
    this.pieceStarts = [...inner, even(Math.max(0, bytes - PIECE_BYTES))].filter((start) => start > HEAD_BYTES);
  }

  headIsFull(): boolean {
    return (this.headLength >= HEAD_BYTES && this.headHasLine) || this.headLength >= LONGEST_HEAD;
  }

  skipTo(position: number): void {
    this.at = position;
  }

  take(chunk: Uint8Array): void {
    const full = this.headIsFull();
    if (!full && this.at === this.headLength) {
      this.headChunks.push(chunk.slice());
      this.headLength += chunk.length;
      this.headHasLine ||= chunk.includes(10) || chunk.includes(13);
    }
    for (const start of this.pieceStarts) {
      const from = Math.max(start, this.at);
      const to = Math.min(start + PIECE_BYTES, this.at + chunk.length);
      if (from < to) this.keep(start, chunk.slice(from - this.at, to - this.at));
    }
    this.at += chunk.length;
  }

  private keep(start: number, part: Uint8Array): void {
    const parts = this.pieces.get(start);
    if (parts === undefined) this.pieces.set(start, [part]);
    else parts.push(part);
  }

  head(): Uint8Array {
    return joined(this.headChunks);
  }

  isComplete(): boolean {
    return this.at === this.headLength;
  }

  /** Pieces that begin behind the head. */
  laterPieces(): Uint8Array[] {
    return this.pieceStarts
      .filter((start) => start >= this.headLength)
      .flatMap((start) => (this.pieces.has(start) ? [joined(this.pieces.get(start)!)] : []));
  }
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  if (parts.length === 1) return parts[0];
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

async function describe(reader: PieceReader): Promise<Survey> {
  const raw = reader.head();
  const encoding = findEncoding(raw);
  const complete = reader.isComplete();
  const head = decodeHead(await plain(raw, encoding), encoding);
  const pieces = reader.laterPieces();
  const later: string[] = [];
  let tail: readonly string[] = [];
  for (let i = 0; i < pieces.length; i++) {
    const bytes = await plain(pieces[i], { encoding: encoding.encoding, skip: 0 });
    const lines = splitLines(decodeHead(bytes.subarray(firstLineEnd(bytes)), encoding));
    // The first line of a piece is cut, so is the last one unless it is the end of the file.
    later.push(...(i === pieces.length - 1 ? lines.slice(-PIECE_LINES) : lines.slice(0, -1).slice(0, PIECE_LINES)));
  }
  if (later.length > 0) tail = later.slice(-TAIL_LINES);
  const texts = splitLines(head);
  if (!complete && texts.length > 1) texts.pop();
  const narrow = encoding.encoding === "utf-8" || isNarrow(encoding.encoding);
  return {
    encoding,
    head: texts.map((text, i) => ({ line: i + 1, text })),
    complete,
    later: later.filter((text) => text.trim() !== ""),
    headBytes: raw,
    tail,
    hasNul: narrow && raw.includes(0),
    carriageReturns: head.includes("\r") && !head.includes("\n"),
  };
}

async function plain(raw: Uint8Array, encoding: EncodingReading): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  for await (const part of plainBytes(once(raw), encoding)) parts.push(part);
  return withoutNul(joined(parts));
}

/** Text that may end in the middle of a character. */
function decodeHead(bytes: Uint8Array, { encoding }: EncodingReading): string {
  if (isNarrow(encoding) || !isUtf8(bytes)) return decodeNarrow(bytes, encoding);
  return textDecoder("utf-8").decode(bytes, { stream: true });
}

function firstLineEnd(bytes: Uint8Array): number {
  const at = bytes.findIndex((byte) => byte === 10 || byte === 13);
  return at < 0 ? bytes.length : at + 1;
}

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}

/** Lines by LF or CR LF, by CR only where there is no LF at all; an end of line at the end makes no further line. */
export function splitLines(text: string): string[] {
  const lines = text.includes("\n") ? text.split("\n").map(withoutReturns) : text.split("\r");
  if (lines[lines.length - 1] === "") lines.pop();
  return lines;
}

/** Counted from the end: a pattern such as /\r*$/ takes quadratic time on a line of nothing but returns. */
function withoutReturns(line: string): string {
  let end = line.length;
  while (end > 0 && line[end - 1] === "\r") end--;
  return end === line.length ? line : line.slice(0, end);
}
