import { withoutNul } from "../encoding";
import { joined } from "../survey";

/**
 * Bytes [from, to) of a buffer that hold whole lines, each ended by LF but for the last line of the file. `nuls`: how many NUL bytes were left out already of the one
 * line of a block that was put together.
 */
export type LineBlock = {
  readonly bytes: Uint8Array;
  readonly from: number;
  readonly to: number;
  readonly cut: boolean;
  readonly nuls: number;
};

const LF = 10;
const CR = 13;
/** A line longer than this is not read as a row; its tail is dropped and it is rejected by its number. */
export const LONGEST_LINE = 1024 * 1024;

/**
 * Regroups chunks so that no line is cut by the edge of a chunk. Each byte is copied at most once; time is linear however long a line is.
 * @param carriageReturns lines end with CR alone
 */
export async function* wholeLines(chunks: AsyncIterable<Uint8Array>, carriageReturns: boolean): AsyncGenerator<LineBlock> {
  let carried: Uint8Array[] = [];
  let carriedLength = 0;
  let cut = false;
  let nuls = 0;
  const carry = (given: Uint8Array) => {
    const part = withoutNul(given);
    nuls += given.length - part.length;
    if (part.length === 0) return;
    if (carriedLength > LONGEST_LINE) cut = true;
    else carried.push(part === given ? part.slice() : part); // the giver may use its buffer again
    carriedLength += part.length;
  };
  const flush = (): LineBlock => {
    const bytes = joined(carried);
    const block = { bytes, from: 0, to: bytes.length, cut, nuls };
    carried = [];
    carriedLength = 0;
    cut = false;
    nuls = 0;
    return block;
  };
  for await (const given of chunks) {
    const chunk = carriageReturns ? given.map((byte) => (byte === CR ? LF : byte)) : given;
    const last = chunk.lastIndexOf(LF);
    if (last < 0) {
      carry(chunk);
      continue;
    }
    let from = 0;
    if (carriedLength > 0 || nuls > 0) {
      from = chunk.indexOf(LF) + 1;
      const isCut: boolean = cut || carriedLength > LONGEST_LINE;
      if (isCut) carried.push(Uint8Array.of(LF));
      else carried.push(chunk.subarray(0, from));
      cut = isCut;
      yield flush();
    }
    if (from <= last) yield { bytes: chunk, from, to: last + 1, cut: false, nuls: 0 };
    carry(chunk.subarray(last + 1));
  }
  if (carriedLength > 0) yield flush();
}
