import { strToU8, Zip, ZipDeflate } from "fflate";
import type { VisitFileProblem } from "../../shared/problems/visit-file-problem";
import { readVisitFile, VISIT_FILE_END, writeVisitFile } from "../../shared/schemas/visit-file";
import { fileNameFrom } from "../parts/save-as-file";
import type { PickedFile } from "../worker/messages";
import { packLog, unpackLog } from "./log-packing";
import { loadVisit } from "./visit-store";
import { isZip, unpackEntry, zipEntries } from "./zip-directory";

/** A visit out of a file, with its log where the file carries it. */
export type ArchivedVisit = { readonly name: string; readonly text: string; readonly files: readonly PickedFile[] };
export type FromArchive = ArchivedVisit | { readonly name: string; readonly problem: VisitFileProblem };

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

/** Bytes of one archive at most: a zip of this form cannot hold 4 GB. */
const MOST_PACKED = 3_500_000_000;

/**
 * All named visits as zips, one visit file each; one zip unless that would grow too large. One visit after another is read and packed, and what
 * is packed is given to the browser, which may put it on disk: thousands of visits together would not fit into memory.
 * @param onProgress called with how many of how many were packed
 */
export async function exportVisits(
  ids: readonly string[],
  onProgress: (done: number, all: number) => void = () => {},
  most = MOST_PACKED,
): Promise<readonly Blob[]> {
  const whole: Blob[] = [];
  let zip = startZip();
  for (const [i, id] of ids.entries()) {
    const file = await visitFileWithLog(id);
    if (file !== null) zip.add(`${String(i + 1).padStart(4, "0")} ${file.name}`, file.text);
    onProgress(i + 1, ids.length);
    if (zip.size() <= most) continue;
    whole.push(zip.end());
    zip = startZip();
  }
  if (zip.size() > 0 || whole.length === 0) whole.push(zip.end());
  return whole;
}

function startZip() {
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
  return {
    size: () => packed.size,
    add(name: string, text: string) {
      const entry = new ZipDeflate(name, { level: 1 });
      zip.add(entry);
      entry.push(strToU8(text), true);
      handOver();
    },
    end() {
      zip.end();
      handOver();
      return packed;
    },
  };
}

/** Unpacked bytes of one visit at most: more is no text that a browser can hold. */
const MOST_UNPACKED = 400_000_000;

/**
 * The visits in files as saved (visit files, or zips of them), one after the other: of an archive only one visit is in memory at a time. What
 * cannot be read comes as its reason and never costs the rest. A file that is neither is handed on as it is, so that it is refused by name.
 */
export async function* archivedVisits(files: readonly File[]): AsyncGenerator<FromArchive> {
  for (const file of files) {
    if (await isZip(file)) yield* visitsOfZip(file);
    else if (file.size > MOST_UNPACKED) yield { name: file.name, problem: { id: "too-large" } };
    else yield withFiles(file.name, await file.text());
  }
}

async function* visitsOfZip(file: File): AsyncGenerator<FromArchive> {
  const entries = await zipEntries(file);
  if (entries === null) yield { name: file.name, problem: { id: "archive-damaged" } };
  for (const entry of entries ?? []) {
    const { name, size } = entry;
    if (!name.endsWith(".json")) continue;
    const unpacked = size > MOST_UNPACKED ? null : await unpackEntry(file, entry);
    if (unpacked !== null) yield withFiles(name, await unpacked.text());
    else yield { name, problem: { id: size > MOST_UNPACKED ? "too-large" : "entry-damaged" } };
  }
}

/** A log that cannot be unpacked costs the log, not the visit. */
async function withFiles(name: string, text: string): Promise<ArchivedVisit> {
  const { visit } = readVisitFile(text);
  if (visit?.log == null) return { name, text, files: [] };
  const files = await unpackLog(visit.log).catch(() => []);
  return { name, text, files };
}
