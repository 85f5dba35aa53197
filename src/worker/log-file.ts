import type { LogFile } from "../../analysis/import/import-log";
import type { PickedFile } from "./messages";

/** Up to this size a file is taken whole, which is fastest; above it in slices, so that memory stays small. */
const WHOLE_UP_TO = 64 * 1024 * 1024;
const SLICE = 8 * 1024 * 1024;
/** What is fetched is given on in pieces of this size: after each the page hears how far it is. */
const PIECE = 2 * 1024 * 1024;

/** A picked file as the importer reads it. The next slice is fetched while the last one is read. */
export function logFile(file: PickedFile): LogFile {
  const slice = async (from: number, to: number) => new Uint8Array(await file.blob.slice(from, to).arrayBuffer());
  return { name: file.name, bytes: file.blob.size, sha256: null, open: () => slices(file.blob), slice };
}

async function* slices(blob: Blob): AsyncIterable<Uint8Array> {
  const size = blob.size <= WHOLE_UP_TO ? Math.max(1, blob.size) : SLICE;
  let coming = blob.slice(0, size).arrayBuffer();
  for (let at = 0; at < blob.size; at += size) {
    const bytes = new Uint8Array(await coming);
    if (at + size < blob.size) coming = blob.slice(at + size, at + 2 * size).arrayBuffer();
    for (let from = 0; from < bytes.length; from += PIECE) yield bytes.subarray(from, from + PIECE);
  }
}
