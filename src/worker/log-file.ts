import type { LogFile } from "../../analysis/import/import-log";
import { fingerprintOf, sha256 } from "./fingerprint";
import type { PickedFile } from "./messages";

/** A file as the importer reads it, with the fingerprint of all its bytes as hexadecimal digits; null where it is too large for one. */
export type PickedLog = LogFile & { readonly fingerprint: () => Promise<string | null> };

/** Up to this size a file is held in memory as a whole while it is read, so that it is fetched once for its rows and its fingerprint. */
const WHOLE_UP_TO = 64 * 1024 * 1024;
/** The first slice is small, so that the page has something to draw while the rest is fetched. */
const FIRST_SLICE = 1024 * 1024;
const SLICE = 8 * 1024 * 1024;
/** Slices asked for ahead: fetching takes longer than reading, and several at once less than one after the other. */
const AHEAD = 3;
/** What is fetched is given on in pieces of this size: after each the page hears how far it is. */
const PIECE = 2 * 1024 * 1024;

export function logFile({ name, blob }: PickedFile): PickedLog {
  let print: Promise<string | null> | null = null;
  const slice = async (from: number, to: number) => new Uint8Array(await blob.slice(from, to).arrayBuffer());
  return {
    name,
    bytes: blob.size,
    sha256: null,
    slice,
    open: () =>
      blob.size > WHOLE_UP_TO
        ? pieces(blob)
        : piecesOfWhole(blob, (whole) => {
            print ??= sha256(whole).catch(() => null);
          }),
    fingerprint: () => print ?? fingerprintOf(blob),
  };
}

async function* pieces(blob: Blob): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  let asked = 0;
  const coming: Promise<ArrayBuffer>[] = [];
  const ask = () => {
    if (asked > 0 && asked >= blob.size) return;
    const end = asked + (asked === 0 ? FIRST_SLICE : SLICE);
    const slice = blob.slice(asked, end).arrayBuffer();
    // One that fails is told when its turn comes.
    slice.catch(() => {});
    coming.push(slice);
    asked = end;
  };
  for (let k = 0; k < AHEAD; k++) ask();
  for (let next = coming.shift(); next !== undefined; next = coming.shift()) {
    const bytes = new Uint8Array(await next);
    ask();
    for (let from = 0; from < bytes.length; from += PIECE) yield bytes.subarray(from, from + PIECE);
  }
}

/** The same bytes, kept together. @param onWhole called with all of them before the last piece is given on */
async function* piecesOfWhole(blob: Blob, onWhole: (whole: Uint8Array<ArrayBuffer>) => void): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  const whole = new Uint8Array(blob.size);
  let at = 0;
  for await (const piece of pieces(blob)) {
    whole.set(piece, at);
    at += piece.length;
    if (at === whole.length) onWhole(whole);
    yield whole.subarray(at - piece.length, at);
  }
}
