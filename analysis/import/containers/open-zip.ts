import { type UnzipFileInfo, unzipSync } from "fflate";
import { ImportError } from "../../../shared/problems/import-problem";
import type { LogFile } from "../import-log";
import { crc32 } from "./crc-32";
import { fileOfBytes, MOST_ENTRIES, MOST_UNPACKED, type OpenedFile } from "./open-containers";
import { zipSums } from "./zip-sums";

const LOG_NAME = /\.(?:csv|tsv|tab|txt|log|dat|asc|prn|xlsx)$/i;
const WORKBOOK_NAME = /\.xlsx$/i;
const LEFT_ALONE = /(?:^|\/)(?:__MACOSX\/|\.)|(?:^|\/)(?:readme|licen[cs]e)\b/i;

/** The logs in an archive, or the sheets of a workbook, which is an archive too. @throws ImportError damaged-archive, too-large */
export async function openZip(file: LogFile, bytes: Uint8Array): Promise<OpenedFile[]> {
  const entries = listEntries(file, bytes);
  if (entries.some(({ name }) => name === "xl/workbook.xml")) {
    const { openWorkbook } = await import("./open-workbook");
    return openWorkbook(file, bytes);
  }
  const wanted = new Set(entries.filter(({ name }) => LOG_NAME.test(name) && !LEFT_ALONE.test(name)).map(({ name }) => name));
  if (wanted.size === 0) throw new ImportError({ id: "damaged-archive", file: file.name, why: "no-log" });
  const unpacked = unpack(file, bytes, ({ name }) => wanted.has(name));
  const sums = zipSums(bytes);
  entries.forEach(({ name }, i) => {
    if (unpacked[name] === undefined || sums[i] === undefined || crc32(unpacked[name]) === sums[i]) return;
    throw new ImportError({
      id: "damaged-archive",
      file: file.name,
      why: { entry: name },
    });
  });
  const opened: OpenedFile[] = [];
  for (const name of wanted) {
    if (unpacked[name] === undefined) continue;
    const inside = fileOfBytes(`${file.name}/${name}`, unpacked[name], wanted.size > 1);
    opened.push(...(WORKBOOK_NAME.test(name) ? await openInside(inside, unpacked[name]) : [inside]));
  }
  return opened;
}

/** A workbook packed with other files is left out where it holds no log. */
async function openInside(file: OpenedFile, bytes: Uint8Array): Promise<OpenedFile[]> {
  const { openWorkbook } = await import("./open-workbook");
  return (await openWorkbook(file, bytes)).map((sheet) => ({ ...sheet, mayBeLeftOut: sheet.mayBeLeftOut || file.mayBeLeftOut }));
}

/** Names and sizes by the archive's own directory, with nothing unpacked. */
function listEntries(file: LogFile, bytes: Uint8Array): UnzipFileInfo[] {
  const entries: UnzipFileInfo[] = [];
  unpack(file, bytes, (entry) => {
    entries.push(entry);
    return false;
  });
  if (entries.length > MOST_ENTRIES) throw new ImportError({ id: "too-large", file: file.name, what: "entries", limit: MOST_ENTRIES });
  const size = entries.reduce((sum, entry) => sum + entry.originalSize, 0);
  if (size > MOST_UNPACKED) throw new ImportError({ id: "too-large", file: file.name, what: "unpacked-size", limit: MOST_UNPACKED });
  return entries;
}

/** fflate gives each entry the room that the directory names and stops there: an entry that lies about its size cannot grow. */
function unpack(file: LogFile, bytes: Uint8Array, filter: (entry: UnzipFileInfo) => boolean): Record<string, Uint8Array> {
  try {
    return unzipSync(bytes, { filter });
  } catch (error) {
    throw new ImportError({
      id: "damaged-archive",
      file: file.name,
      why: { message: error instanceof Error ? error.message : String(error) },
    });
  }
}
