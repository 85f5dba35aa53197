import { ImportError, type ImportProblem } from "../../shared/problems/import-problem";
import { namesTime } from "./dialects/heading-rows";
import { LONGEST_ROW, type TextRow } from "./find-format";
import type { LogFile } from "./import-log";
import type { Survey } from "./survey";

/** First bytes of files that are never a text log. Source: the formats' own published signatures. */
const SIGNATURES: readonly (readonly number[])[] = [
  [0x89, 0x50, 0x4e, 0x47], // PNG
  [0xff, 0xd8, 0xff], // JPEG
  [0x47, 0x49, 0x46, 0x38], // GIF
  [0x25, 0x50, 0x44, 0x46], // PDF
  [0x7f, 0x45, 0x4c, 0x46], // ELF
  [0xd0, 0xcf, 0x11, 0xe0], // OLE2, old spreadsheets
  [0x1f, 0x8b], // gzip
  [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65], // SQLite
];

/** @throws ImportError where the file is empty or is no text */
export function refuseUnreadable(file: LogFile, survey: Survey): void {
  if (survey.head.every(({ text }) => text.trim() === "") && survey.complete) throw new ImportError({ id: "empty-file", file: file.name });
  const bytes = survey.headBytes;
  if (SIGNATURES.some((signature) => signature.every((byte, i) => bytes[i] === byte)) || tooManyControls(survey)) {
    throw new ImportError({ id: "not-text", file: file.name });
  }
}

/** Control characters other than tab, line ends, form feed, unit separators and end of file make up more than a fiftieth. */
function tooManyControls(survey: Survey): boolean {
  const text = survey.head
    .slice(0, 200)
    .map((line) => line.text)
    .join("")
    .slice(0, 20_000);
  let controls = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if ((code < 32 && code !== 9 && code !== 12 && code !== 13 && code !== 26 && code !== 31) || code === 0xfffd) controls++;
  }
  return controls * 50 > text.length;
}

/** Why there is no row of numbers: lines that are too long, headings alone, or no table at all. */
export function noTable(file: string, rows: readonly TextRow[]): ImportProblem {
  const long = rows.filter(({ text }) => text.length > LONGEST_ROW);
  if (long.length * 2 > rows.filter(({ text }) => text.trim() !== "").length) {
    const [{ text }] = long;
    const columns = Math.max(...[",", ";", "\t", "|"].map((mark) => text.split(mark).length));
    return { id: "too-large", file, what: { characters: text.length, columns }, limit: LONGEST_ROW };
  }
  const filled = rows.filter((row) => row.cells.filter((cell) => cell !== "").length > 1);
  const heading = filled.find((row) => row.cells.some(namesTime) && row.cells.every((cell) => cell.length < 60));
  if (heading !== undefined && filled.indexOf(heading) >= filled.length - 2)
    return { id: "header-only", file, row: heading.line, headings: heading.cells };
  return { id: "no-table", file, row: rows[0]?.line ?? 1 };
}
