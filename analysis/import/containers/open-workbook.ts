import { unzipSync } from "fflate";
import readWorkbook from "read-excel-file/universal";
import { ImportError } from "../../../shared/problems/import-problem";
import type { LogFile } from "../import-log";
import { fileOfText, type OpenedFile } from "./open-containers";

/** The library takes some 60 us and 2 kB a row; above this a CSV export is the better way. */
const LARGEST_WORKBOOK = 64 * 1024 ** 2;

/** Unpacked: a million rows of a few columns, as many as a sheet holds (ISO/IEC 29500 leaves 1,048,576); its text is held several times over. */
const LARGEST_UNPACKED = 256 * 1024 ** 2;

/** What the workbook's own directory says it unpacks to, bytes; an entry cannot grow beyond what it names. @throws ImportError damaged-archive */
function unpackedSize(file: LogFile, bytes: Uint8Array): number {
  let size = 0;
  try {
    unzipSync(bytes, {
      filter: ({ originalSize }) => {
        size += originalSize;
        return false;
      },
    });
  } catch (error) {
    throw new ImportError({ id: "damaged-archive", file: file.name, why: error instanceof Error ? error.message : String(error) });
  }
  return size;
}

/** The sheets of a workbook as CSV texts whose line numbers are the rows of the sheet. @throws ImportError damaged-archive, too-large */
export async function openWorkbook(file: LogFile, bytes: Uint8Array): Promise<OpenedFile[]> {
  if (bytes.length > LARGEST_WORKBOOK)
    throw new ImportError({ id: "too-large", file: file.name, what: "the workbook's size in bytes", limit: LARGEST_WORKBOOK });
  if (unpackedSize(file, bytes) > LARGEST_UNPACKED)
    throw new ImportError({ id: "too-large", file: file.name, what: "the workbook's unpacked size in bytes", limit: LARGEST_UNPACKED });
  const sheets = await readSheets(file, bytes);
  const filled = sheets.filter(({ data }) => data.length > 0);
  if (filled.length === 0) throw new ImportError({ id: "empty-file", file: file.name });
  return filled.map(({ sheet, data }) => fileOfText(`${file.name}/${sheet}`, data.map(writeRow).join("\n"), filled.length > 1));
}

async function readSheets(file: LogFile, bytes: Uint8Array): ReturnType<typeof readWorkbook> {
  try {
    return await readWorkbook(bytes.slice().buffer);
  } catch (error) {
    throw new ImportError({ id: "damaged-archive", file: file.name, why: error instanceof Error ? error.message : String(error) });
  }
}

const writeRow = (cells: readonly unknown[]) => cells.map(writeCell).join(",");

function writeCell(cell: unknown): string {
  if (cell === null || cell === undefined) return "";
  if (cell instanceof Date) return writeDate(cell);
  const text = String(cell).replace(/\s+/g, " "); // a line end in a cell would put the row numbers out
  return /[",]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}

/** Day numbers below 1 are times of day; the library dates them to the last days of 1899. */
const FIRST_DAY = Date.UTC(1900, 0, 1);

/**
 * A day number has about a millisecond of rounding in it; the workbook's wall time stands in the UTC fields. A time of day is written without the
 * date that it has not got, and a day without the midnight.
 */
function writeDate(date: Date): string {
  const ms = date.getTime();
  const second = Math.round(ms / 1000) * 1000;
  const text = new Date(Math.abs(ms - second) <= 2 ? second : ms).toISOString();
  const [day, time] = text.replace(/(?:\.000)?Z$/, "").split("T");
  if (ms < FIRST_DAY) return time;
  return time === "00:00:00" ? day : `${day} ${time}`;
}
