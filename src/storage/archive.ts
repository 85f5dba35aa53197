import { strFromU8, strToU8, type UnzipFileInfo, type Unzipped, unzipSync, Zip, ZipDeflate } from "fflate";
import { readVisitFile, VISIT_FILE_END, writeVisitFile } from "../../shared/schemas/visit-file";
import { fileNameFrom } from "../parts/save-as-file";
import type { PickedFile } from "../worker/messages";
import { packLog, unpackLog } from "./log-packing";
import { loadVisit } from "./visit-store";

/** A visit out of a file, with its log where the file carries it. */
export type ArchivedVisit = { readonly name: string; readonly text: string; readonly files: readonly PickedFile[] };

/** The text of a kept visit's file with its log; null where it is no longer kept. */
export async function visitFileWithLog(id: string): Promise<{ readonly name: string; readonly text: string } | null> {
  const loaded = await loadVisit(id);
  if (loaded === null) return null;
  const { visit, text, log } = loaded;
  const name = `${fileNameFrom(`${visit.title} ${new Date(visit.saved).toISOString().slice(0, 10)}`)}${VISIT_FILE_END}`;
  const read = readVisitFile(text);
  if (read.visit === null || log.length === 0) return { name, text };
  const sums = read.visit.findings?.record.files ?? [];
  const packed = await packLog(
    log,
    log.map((file) => sums.find((sum) => sum.name === file.name)?.sha256 ?? null),
  );
  return { name, text: writeVisitFile({ ...read.visit, log: packed }) };
}

/**
 * All named visits in one zip, one visit file each. One visit after another is read and packed, and what is packed is given to the browser,
 * which may put it on disk: thousands of visits together would not fit into memory.
 */
export async function exportVisits(ids: readonly string[]): Promise<Blob> {
  let packed = new Blob([], { type: "application/zip" });
  let pieces: Uint8Array<ArrayBuffer>[] = [];
  const zip = new Zip((error, piece) => {
    if (error !== null) throw error;
    pieces.push(new Uint8Array(piece));
  });
  const handOver = () => {
    packed = new Blob([packed, ...pieces], { type: "application/zip" });
    pieces = [];
  };
  for (const [i, id] of ids.entries()) {
    const file = await visitFileWithLog(id);
    if (file === null) continue;
    const entry = new ZipDeflate(`${String(i + 1).padStart(4, "0")} ${file.name}`, { level: 1 });
    zip.add(entry);
    entry.push(strToU8(file.text), true);
    handOver();
  }
  zip.end();
  handOver();
  return packed;
}

/**
 * The visits in files as saved: visit files, or a zip of them. A file that is neither is handed on as it is, so that it is refused by name.
 * A log that cannot be unpacked costs the log, not the visit.
 */
export async function readArchive(files: readonly File[]): Promise<readonly ArchivedVisit[]> {
  const texts: { name: string; text: string }[] = [];
  for (const file of files) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const unzipped = isZip(bytes) ? unzip(bytes) : null;
    if (unzipped === null) texts.push({ name: file.name, text: new TextDecoder().decode(bytes) });
    else for (const [name, content] of Object.entries(unzipped)) texts.push({ name, text: strFromU8(content) });
  }
  return Promise.all(texts.map(withFiles));
}

const isZip = (bytes: Uint8Array) => bytes[0] === 0x50 && bytes[1] === 0x4b;

/** Unpacked bytes of the visits in one archive at most: a few hundred visits with their logs, far below what a tab can hold. */
const MOST_UNPACKED = 1024 ** 3;

/** The visit files of an archive; null where it is damaged or would unpack to more than the limit. An entry cannot grow beyond the size it names. */
function unzip(bytes: Uint8Array): Unzipped | null {
  let size = 0;
  const filter = ({ name, originalSize }: UnzipFileInfo) => {
    if (!name.endsWith(".json")) return false;
    size += originalSize;
    if (size > MOST_UNPACKED) throw new RangeError(`unzip: more than ${MOST_UNPACKED} bytes`);
    return true;
  };
  try {
    return unzipSync(bytes, { filter });
  } catch {
    return null;
  }
}

async function withFiles({ name, text }: { readonly name: string; readonly text: string }): Promise<ArchivedVisit> {
  const { visit } = readVisitFile(text);
  if (visit?.log == null) return { name, text, files: [] };
  const files = await unpackLog(visit.log).catch(() => []);
  return { name, text, files };
}
