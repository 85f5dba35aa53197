import type { FileLayout, LineKind } from "../record/file-layout";

const LINE_KINDS: Readonly<Record<LineKind, string>> = {
  preamble: "about the log",
  heading: "headings",
  units: "units",
  data: "data",
  comment: "comment",
  footer: "after the log",
  blank: "blank",
  rejected: "not read",
  "other-table": "another table",
};

/** What a line of a file was taken for. */
export const sayLineKind = (kind: LineKind): string => LINE_KINDS[kind];

const ENCODINGS: ReadonlyMap<string, string> = new Map([
  ["utf-8", "UTF-8"],
  ["utf-16le", "UTF-16, low byte first"],
  ["utf-16be", "UTF-16, high byte first"],
  ["windows-1252", "Windows-1252"],
  ["ibm850", "code page 850"],
]);

const DELIMITERS: ReadonlyMap<string, string> = new Map([
  [",", "commas between columns"],
  [";", "semicolons between columns"],
  ["\t", "tabs between columns"],
  ["|", "upright bars between columns"],
  ["spaces", "runs of spaces between columns"],
  ["fixed-width", "columns of fixed width"],
]);

/** How the file is written, in one line: "Semicolons between columns, decimal comma, UTF-8." */
export function sayFileForm(layout: Pick<FileLayout, "delimiter" | "decimal" | "thousands" | "encoding">): string {
  const between = DELIMITERS.get(layout.delimiter) ?? `"${layout.delimiter}" between columns`;
  const decimal = layout.decimal === "," ? "decimal comma" : "decimal point";
  const thousands = layout.thousands === null ? [] : [`${layout.thousands === " " ? "blanks" : `"${layout.thousands}"`} between thousands`];
  const parts = [between, decimal, ...thousands, ENCODINGS.get(layout.encoding) ?? layout.encoding];
  const sentence = parts.join(", ");
  return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.`;
}
