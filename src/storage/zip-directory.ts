import { Inflate } from "fflate";

/** An entry of a zip as its directory tells: sizes in bytes, and where its own header begins. */
export type ZipEntry = {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly size: number;
  readonly at: number;
};

/** Signatures and lengths of the records: PKWARE APPNOTE 4.3.7, 4.3.12 and 4.3.16. */
const LOCAL = { signature: 0x04034b50, length: 30 } as const;
const CENTRAL = { signature: 0x02014b50, length: 46 } as const;
const END = { signature: 0x06054b50, length: 22 } as const;
const LONGEST_COMMENT = 0xffff;
/** Stands where a number needs the 64-bit form, which is not read. */
const ELSEWHERE = 0xffffffff;

const viewOf = async (file: Blob, from: number, to: number): Promise<DataView> => new DataView(await file.slice(from, to).arrayBuffer());

export const isZip = async (file: Blob): Promise<boolean> => {
  const head = await viewOf(file, 0, 4);
  return head.byteLength === 4 && (head.getUint32(0, true) === LOCAL.signature || head.getUint32(0, true) === END.signature);
};

/** The entries of a zip, read from its end: nothing of their content is. Null where the directory is damaged or of the 64-bit form. */
export async function zipEntries(file: Blob): Promise<readonly ZipEntry[] | null> {
  const from = Math.max(0, file.size - END.length - LONGEST_COMMENT);
  const tail = await viewOf(file, from, file.size);
  let end = tail.byteLength - END.length;
  while (end >= 0 && tail.getUint32(end, true) !== END.signature) end--;
  if (end < 0) return null;
  const [count, length, at] = [tail.getUint16(end + 10, true), tail.getUint32(end + 12, true), tail.getUint32(end + 16, true)];
  if (at === ELSEWHERE || at + length > file.size) return null;
  return readDirectory(await viewOf(file, at, at + length), count);
}

function readDirectory(directory: DataView, count: number): readonly ZipEntry[] | null {
  const entries: ZipEntry[] = [];
  for (let at = 0; entries.length < count; ) {
    if (at + CENTRAL.length > directory.byteLength || directory.getUint32(at, true) !== CENTRAL.signature) return null;
    const [method, packed, size] = [
      directory.getUint16(at + 10, true),
      directory.getUint32(at + 20, true),
      directory.getUint32(at + 24, true),
    ];
    const [name, extra, comment] = [28, 30, 32].map((offset) => directory.getUint16(at + offset, true));
    const bytes = new Uint8Array(directory.buffer, at + CENTRAL.length, Math.min(name, directory.byteLength - at - CENTRAL.length));
    entries.push({ name: new TextDecoder().decode(bytes), method, packed, size, at: directory.getUint32(at + 42, true) });
    at += CENTRAL.length + name + extra + comment;
  }
  return entries;
}

/** Bytes that are unpacked in one go. */
const PIECE = 1 << 20;
const [STORED, DEFLATED] = [0, 8];

/**
 * The content of an entry, unpacked piece after piece, never to more than its directory names.
 * @returns null where it is damaged, not of that size, or packed in a way that is not known
 */
export async function unpackEntry(file: Blob, { method, packed, size, at }: ZipEntry): Promise<Blob | null> {
  const header = await viewOf(file, at, at + LOCAL.length);
  if (header.byteLength < LOCAL.length || header.getUint32(0, true) !== LOCAL.signature) return null;
  const from = at + LOCAL.length + header.getUint16(26, true) + header.getUint16(28, true);
  if (method === STORED) return packed === size && from + size <= file.size ? file.slice(from, from + size) : null;
  if (method !== DEFLATED) return null;
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let count = 0;
  const inflate = new Inflate((piece) => {
    count += piece.length;
    if (count <= size) pieces.push(new Uint8Array(piece));
  });
  try {
    for (let read = 0; read < packed && count <= size; read += PIECE) {
      const [begin, end] = [from + read, from + Math.min(packed, read + PIECE)];
      inflate.push(new Uint8Array(await file.slice(begin, end).arrayBuffer()), read + PIECE >= packed);
    }
  } catch {
    return null;
  }
  return count === size ? new Blob(pieces) : null;
}
