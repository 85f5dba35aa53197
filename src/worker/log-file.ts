import type { LogFile } from "../../analysis/import/import-log";
import type { PickedFile } from "./messages";

/** The first slice is small, so that the page has something to draw while the rest is fetched; each further one is twice as large, up to the last size. */
const FIRST_SLICE = 1024 * 1024;
const LARGEST_SLICE = 8 * 1024 * 1024;
/** What is fetched is given on in pieces of this size: after each the page hears how far it is. */
const PIECE = 2 * 1024 * 1024;

/** A picked file as the importer reads it. The next slice is fetched while the last one is read. */
export function logFile(file: PickedFile): LogFile {
  const slice = async (from: number, to: number) => new Uint8Array(await file.blob.slice(from, to).arrayBuffer());
  return { name: file.name, bytes: file.blob.size, sha256: null, open: () => slices(file.blob), slice };
}

async function* slices(blob: Blob): AsyncIterable<Uint8Array> {
  let size = FIRST_SLICE;
  let coming = blob.slice(0, size).arrayBuffer();
  for (let end = size; ; end += size) {
    const bytes = new Uint8Array(await coming);
    size = Math.min(LARGEST_SLICE, 2 * size);
    coming = blob.slice(end, end + size).arrayBuffer();
    for (let from = 0; from < bytes.length; from += PIECE) yield bytes.subarray(from, from + PIECE);
    if (end >= blob.size) return;
  }
}
