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
    throw new ImportError({
      id: "damaged-archive",
      file: file.name,
      why: { message: error instanceof Error ? error.message : String(error) },
    });
  }
  return size;
}

/** The sheets of a workbook as CSV texts whose line numbers are the rows of the sheet. @throws ImportError damaged-archive, too-large */
export async function openWorkbook(file: LogFile, bytes: Uint8Array): Promise<OpenedFile[]> {
  if (bytes.length > LARGEST_WORKBOOK)
    throw new ImportError({ id: "too-large", file: file.name, what: "workbook-size", limit: LARGEST_WORKBOOK });
  if (unpackedSize(file, bytes) > LARGEST_UNPACKED)
    throw new ImportError({ id: "too-large", file: file.name, what: "workbook-unpacked-size", limit: LARGEST_UNPACKED });
  const sheets = await readSheets(file, bytes);
  const filled = sheets.filter(({ data }) => data.length > 0);
  if (filled.length === 0) throw new ImportError({ id: "empty-file", file: file.name });
  return filled.map(({ sheet, data }) => fileOfText(`${file.name}/${sheet}`, writeRows(data), filled.length > 1));
}

async function readSheets(file: LogFile, bytes: Uint8Array): ReturnType<typeof readWorkbook> {
  try {
    return await readWorkbook(bytes.slice().buffer);
  } catch (error) {
    throw new ImportError({
      id: "damaged-archive",
      file: file.name,
      why: { message: error instanceof Error ? error.message : String(error) },
    });
  }
}

function writeRows(rows: readonly (readonly unknown[])[]): string {
  const spans = spanColumns(rows);
  return rows.map((cells) => cells.map((cell, column) => writeCell(cell, spans.has(column))).join(",")).join("\n");
}

const DAY_ZERO = Date.UTC(1899, 11, 30);
const DAY = 86_400_000;
/** No log is so old: days of the workbook up to here are lengths of time. */
const LONGEST_SPAN = 3650 * DAY;

/** Columns of lengths of time ("[hh]:mm:ss"): the library dates them as days of the workbook, and the longest passes a day. */
function spanColumns(rows: readonly (readonly unknown[])[]): ReadonlySet<number> {
  const longest = new Map<number, number>();
  for (const cells of rows)
    for (const [column, cell] of cells.entries())
      if (cell instanceof Date) longest.set(column, Math.max(longest.get(column) ?? 0, cell.getTime() - DAY_ZERO));
  return new Set([...longest].flatMap(([column, span]) => (span >= DAY && span < LONGEST_SPAN ? [column] : [])));
}

function writeCell(cell: unknown, isSpan: boolean): string {
  if (cell === null || cell === undefined) return "";
  if (cell instanceof Date) return isSpan ? writeSpan(cell) : writeDate(cell);
  const text = String(cell).replace(/\s+/g, " "); // a line end in a cell would put the row numbers out
  return /[",]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text;
}

/** Hours, minutes and seconds with the hours going on behind 24. */
function writeSpan(date: Date): string {
  const seconds = Math.round((date.getTime() - DAY_ZERO) / 1000);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
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
