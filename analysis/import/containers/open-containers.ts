import { ImportError } from "../../../shared/problems/import-problem";
import type { LogFile } from "../import-log";
import { utf8Bytes } from "../platform";
import { joined } from "../survey";

/** A file to read; one of several in an archive or workbook may be left out where it is no log. */
export type OpenedFile = LogFile & {
  readonly mayBeLeftOut: boolean;
  /** Whether its packed content stops before its end; known once it was read through. */
  readonly wasCut?: () => boolean;
};

/** Unpacked bytes of one archive at most: 1 GiB, far above a year of seconds in text and below what a browser tab can hold. */
export const MOST_UNPACKED = 1024 ** 3;
export const MOST_ENTRIES = 1000;
/** A packed file or workbook is held in memory as a whole. */
const MOST_PACKED = 512 * 1024 ** 2;

/**
 * The logs in a list of files: archives (.zip) and workbooks (.xlsx) are opened, gzip unpacked, told by their first bytes and not by their names.
 * What unpacks them is loaded only then. @throws ImportError damaged-archive, too-large
 */
export async function openContainers(files: readonly LogFile[]): Promise<OpenedFile[]> {
  const opened: OpenedFile[] = [];
  for (const file of files) opened.push(...(await openOne(file)));
  return opened;
}

/** A source that fails while it is read is a problem with the file, not a fault of the program. */
function guarded(file: LogFile): LogFile {
  async function* open(): AsyncGenerator<Uint8Array> {
    const chunks = file.open()[Symbol.asyncIterator]();
    try {
      for (;;) {
        const next = await nextChunk(file, chunks);
        if (next.done === true) return;
        yield next.value;
      }
    } finally {
      await chunks.return?.();
    }
  }
  return { ...file, open };
}

async function nextChunk(file: LogFile, chunks: AsyncIterator<Uint8Array>): Promise<IteratorResult<Uint8Array>> {
  try {
    return await chunks.next();
  } catch (error) {
    if (error instanceof ImportError) throw error;
    throw new ImportError({ id: "cannot-open", file: file.name, why: error instanceof Error ? error.message : String(error) });
  }
}

async function openOne(given: LogFile): Promise<OpenedFile[]> {
  const file = guarded(given);
  const first = await firstBytes(file);
  const starts = (...bytes: number[]) => bytes.every((byte, i) => first[i] === byte);
  if (starts(0x50, 0x4b, 3, 4)) {
    const { openZip } = await import("./open-zip");
    return openZip(file, await wholeFile(file));
  }
  if (starts(0x1f, 0x8b)) {
    const { openGzip } = await import("./open-gzip");
    return [openGzip(file)];
  }
  return [{ ...file, mayBeLeftOut: false }];
}

async function firstBytes(file: LogFile): Promise<Uint8Array> {
  if (file.slice !== undefined) return file.slice(0, 4);
  for await (const chunk of file.open()) if (chunk.length > 0) return chunk.slice(0, 4);
  return new Uint8Array(0);
}

async function wholeFile(file: LogFile): Promise<Uint8Array> {
  if (file.bytes > MOST_PACKED) throw new ImportError({ id: "too-large", file: file.name, what: "packed-size", limit: MOST_PACKED });
  const parts: Uint8Array[] = [];
  for await (const chunk of file.open()) parts.push(chunk.slice());
  return joined(parts);
}

/** A file out of bytes in memory. */
export function fileOfBytes(name: string, bytes: Uint8Array, mayBeLeftOut: boolean): OpenedFile {
  const step = 1024 * 1024;
  return {
    name,
    bytes: bytes.length,
    sha256: null,
    mayBeLeftOut,
    async *open() {
      for (let at = 0; at < bytes.length; at += step) yield bytes.subarray(at, at + step);
    },
    slice: async (from, to) => bytes.subarray(from, to),
  };
}

export const fileOfText = (name: string, text: string, mayBeLeftOut: boolean): OpenedFile =>
  fileOfBytes(name, utf8Bytes(text), mayBeLeftOut);
