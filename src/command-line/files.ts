import { createHash, randomUUID } from "node:crypto";
import { open, readFile, rename, rm, stat, writeFile } from "node:fs/promises";
import { basename } from "node:path";
import type { LogFile } from "../../analysis/import/import-log";
import { ImportError } from "../../shared/problems/import-problem";
import { SiteFileError } from "../../shared/problems/site-file-problem";
import { readSiteFacts } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";

const CHUNK_BYTES = 1 << 20;

/** A log on disk, with its fingerprint taken in a pass of its own. @throws ImportError where it cannot be opened */
export async function openLog(path: string): Promise<LogFile> {
  const name = basename(path);
  const { size } = await stat(path).catch((error: unknown) => refuse(name, error));
  return {
    name,
    bytes: size,
    sha256: await sha256(path, name),
    open: () => chunks(path, name),
    slice: (from, to) => slice(path, name, from, to),
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

/** The file in large pieces; the next one is being read while the last is worked on. */
async function* chunks(path: string, name: string): AsyncGenerator<Uint8Array> {
  const file = await open(path, "r").catch((error: unknown) => refuse(name, error));
  const read = async (): Promise<Uint8Array | null> => {
    const chunk = Buffer.allocUnsafeSlow(CHUNK_BYTES);
    const { bytesRead } = await file.read(chunk, 0, CHUNK_BYTES, null).catch((error: unknown) => refuse(name, error));
    return bytesRead === 0 ? null : new Uint8Array(chunk.buffer, chunk.byteOffset, bytesRead);
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

async function sha256(path: string, name: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of chunks(path, name)) hash.update(chunk);
  return hash.digest("hex");
}

function refuse(file: string, error: unknown): never {
  throw new ImportError({ id: "cannot-open", file, why: whyNot(error) });
}

const WHY_NOT: ReadonlyMap<unknown, string> = new Map([
  ["ENOENT", "there is no such file"],
  ["EISDIR", "it is a folder"],
  ["EACCES", "reading it is not permitted"],
]);

function whyNot(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return ("code" in error ? WHY_NOT.get(error.code) : undefined) ?? error.message;
}

/** Site facts from a file. @throws SiteFileError */
export async function readSiteFile(path: string): Promise<SiteFacts> {
  const name = basename(path);
  const text = await readFile(path, "utf8").catch((error: unknown) => refuseSite(name, error));
  return readSiteFacts(parseJson(text, name), name);
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

/** Writes a file beside its place and renames it, so that a crash never leaves half a file under the name. */
export async function writeWhole(path: string, content: string | Uint8Array | Iterable<string>): Promise<void> {
  const beside = `${path}.${randomUUID().slice(0, 8)}.part`;
  try {
    await writeFile(beside, content);
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
