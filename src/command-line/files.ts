import { createHash } from "node:crypto";
import { open, readFile, stat } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { basename } from "node:path";
import { isMainThread } from "node:worker_threads";
import type { LogFile } from "../../analysis/import/import-log";
import { ImportError } from "../../shared/problems/import-problem";
import { SiteFileError } from "../../shared/problems/site-file-problem";
import { readCompanyLimits, withCompanyLimits } from "../../shared/site/company-limits";
import { NO_SITE_FACTS, readSiteFacts } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { NOT_READ } from "../../shared/wording/usage";

const CHUNK_BYTES = 1 << 20;
/** A thread takes about a tenth of a second to start: as long as some 30 MB take to be read. */
const WORTH_A_THREAD = 100e6;

/** A log on disk. @throws ImportError where it cannot be opened */
export async function openLog(path: string): Promise<LogFile> {
  const name = basename(path);
  const { size } = await stat(path).catch((error: unknown) => refuse(name, error));
  return {
    name,
    bytes: size,
    sha256: null,
    open: () => chunks(path, name),
    slice: (from, to) => slice(path, name, from, to),
    ...(size >= WORTH_A_THREAD && isMainThread && availableParallelism() > 1
      ? { readTail: async (from, choices) => (await import("./tail-reader")).readTail(path, from, choices) }
      : {}),
  };
}

/** Bytes [from, to) of a file, fewer where it ends before. */
async function slice(path: string, name: string, from: number, to: number): Promise<Uint8Array> {
  const file = await open(path, "r").catch((error: unknown) => refuse(name, error));
  try {
    const piece = Buffer.alloc(Math.max(0, to - from));
    const { bytesRead } = await file.read(piece, 0, piece.length, from).catch((error: unknown) => refuse(name, error));
    return new Uint8Array(piece.buffer, piece.byteOffset, bytesRead);
  } finally {
    await file.close();
  }
}

/** The file in large pieces; the next one is being read while the last is worked on. Two buffers take turns: a piece holds until the next is asked for. */
async function* chunks(path: string, name: string): AsyncGenerator<Uint8Array> {
  const file = await open(path, "r").catch((error: unknown) => refuse(name, error));
  let [free, taken] = [new Uint8Array(CHUNK_BYTES), new Uint8Array(CHUNK_BYTES)];
  const read = async (): Promise<Uint8Array | null> => {
    [free, taken] = [taken, free];
    const { bytesRead } = await file.read(taken, 0, CHUNK_BYTES, null).catch((error: unknown) => refuse(name, error));
    return bytesRead === 0 ? null : taken.subarray(0, bytesRead);
  };
  let coming = read();
  // Where the reader stops early nobody waits for the piece that was on its way.
  coming.catch(() => {});
  try {
    for (let chunk = await coming; chunk !== null; chunk = await coming) {
      coming = read();
      coming.catch(() => {});
      yield chunk;
    }
  } finally {
    await coming.catch(() => null);
    await file.close();
  }
}

/** A log that takes its own fingerprint (SHA-256) while it is read for the first time. */
export type HashedLog = LogFile & { fingerprint(): Promise<string> };

export function hashed(file: LogFile): HashedLog {
  let print: string | null = null;
  async function* open(): AsyncGenerator<Uint8Array> {
    const hash = print === null ? createHash("sha256") : null;
    for await (const chunk of file.open()) {
      hash?.update(chunk);
      yield chunk;
    }
    // only a pass that came to its end has seen all of it
    print ??= hash?.digest("hex") ?? null;
  }
  return {
    ...file,
    open,
    async fingerprint() {
      if (print === null) for await (const _ of open());
      return print ?? "";
    },
  };
}

function refuse(file: string, error: unknown): never {
  throw new ImportError({ id: "cannot-open", file, why: whyNot(error) });
}

export function whyNot(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return ("code" in error ? NOT_READ.get(error.code) : undefined) ?? error.message;
}

/** Site facts from a file. @throws SiteFileError */
export async function readSiteFile(path: string): Promise<SiteFacts> {
  const name = basename(path);
  const text = await readFile(path, "utf8").catch((error: unknown) => refuseSite(name, error));
  return readSiteFacts(parseJson(text, name), name);
}

/** Facts of a site, none where no file is named, under the limits of the company where a file of these is named. @throws SiteFileError */
export async function readFacts(sitePath: string | null, limitsPath: string | null): Promise<SiteFacts> {
  const site = sitePath === null ? NO_SITE_FACTS : await readSiteFile(sitePath);
  if (limitsPath === null) return site;
  const name = basename(limitsPath);
  const text = await readFile(limitsPath, "utf8").catch((error: unknown) => refuseSite(name, error));
  return withCompanyLimits(site, readCompanyLimits(parseJson(text, name), name));
}

function parseJson(text: string, file: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new SiteFileError({ id: "not-json", file, why: error instanceof Error ? error.message : String(error) });
  }
}

const refuseSite = (file: string, error: unknown): never => {
  throw new SiteFileError({ id: "cannot-open-site", file, why: whyNot(error) });
};
