import { plainBytes } from "../encoding";
import type { Survey } from "../survey";
import type { BlockReader } from "./block-reader";
import type { PlainPart } from "./plain-part";
import type { TextRows } from "./text-rows";
import { wholeLines } from "./whole-lines";

type Slice = (from: number, to: number) => Promise<Uint8Array>;
type Source = {
  readonly bytes: number;
  readonly slice: Slice;
  readonly readTail: (from: number) => Promise<PlainPart | null>;
};

/** Share of a file that is read here while another thread reads what follows: less than half, for its fingerprint is taken here too. */
const READ_HERE = 0.4;
const LF = 10;
const LONGEST_SEARCH = 64 * 1024;
const PIECE = 1024 * 1024;

/**
 * The first part of a file is read here, what follows it elsewhere: its plain rows are taken over, and what follows those is read here again. What comes
 * out is what one reader makes of the whole.
 * @param watch called with the bytes read so far
 */
export async function readInTwo(
  { bytes, slice, readTail }: Source,
  survey: Survey,
  rows: TextRows,
  reader: BlockReader,
  watch: (bytes: number) => void,
): Promise<void> {
  const readPart = async (from: number, to: number, skip: number): Promise<void> => {
    let at = from;
    for await (const block of wholeLines(plainBytes(pieces(slice, from, to), { ...survey.encoding, skip }), false)) {
      reader.take(block);
      at += block.to - block.from;
      watch(at);
    }
  };
  const middle = Math.floor(bytes * READ_HERE);
  const found = (await slice(middle, middle + LONGEST_SEARCH)).indexOf(LF);
  const edge = found < 0 ? bytes : middle + found + 1;
  const coming = found < 0 ? Promise.resolve(null) : readTail(edge).catch(() => null);
  await readPart(0, edge, survey.encoding.skip);
  // a quote that is open, or another table, reaches over the edge: then the rows behind it are not what they look like
  const part = rows.wantsNext ? null : await coming;
  if (part !== null) {
    reader.takeOver(part);
    watch(edge + part.bytes);
  }
  await readPart(edge + (part?.bytes ?? 0), bytes, 0);
  rows.finish();
}

/** Bytes [from, to), the next piece being fetched while the last is worked on. */
async function* pieces(slice: Slice, from: number, to: number): AsyncGenerator<Uint8Array> {
  let coming = from < to ? slice(from, Math.min(to, from + PIECE)) : null;
  for (let at = from; coming !== null; at += PIECE) {
    const piece = await coming;
    coming = at + PIECE < to ? slice(at + PIECE, Math.min(to, at + 2 * PIECE)) : null;
    yield piece;
  }
}
