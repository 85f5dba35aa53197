import { ImportError } from "../../shared/problems/import-problem";
import type { FileLayout } from "../../shared/record/file-layout";
import type { LogRecord } from "../../shared/record/log-record";
import type { ReadingNote } from "../../shared/wording/reading-note";
import type { PlainPart } from "./body/plain-part";
import type { Watch } from "./body/read-body";
import type { SketchedColumn } from "./body/reading-sketch";
import { startsByName } from "./clock/starts-by-name";
import { type OpenedFile, openContainers } from "./containers/open-containers";
import type { FilePart } from "./file-part";
import { type ImportChoices, NO_CHOICES } from "./import-choices";
import { joinParts } from "./join/join-files";
import { borrowDateOrders, withOrderNote } from "./join/share-date-order";
import { borrowHeadings, choicesOf, withHeadings } from "./join/share-headings";
import { readFile } from "./read-file";

export { type ImportChoices, NO_CHOICES };

/** Rows of a log beside which a single one is none. */
const MANY_ROWS = 10;

/** A file to read. `open` may be called more than once (first for the head, then for the whole). */
export type LogFile = {
  readonly name: string;
  readonly bytes: number;
  /** Known only where the face that opened the file has worked it out. */
  readonly sha256: string | null;
  open(): AsyncIterable<Uint8Array>;
  /** Bytes from (included) to (left out), where the source can be read at any place: spares a pass over a large file. */
  readonly slice?: (from: number, to: number) => Promise<Uint8Array>;
  /** Reads the plain rows from a place on with another thread, where the face has one to spare and the file is worth it. Null where that came to nothing. */
  readonly readTail?: (from: number, choices: ImportChoices) => Promise<PlainPart | null>;
};

export type ImportProgress = { readonly rows: number; readonly bytes: number; readonly totalBytes: number };

export type ImportResult = {
  readonly record: LogRecord;
  /** One a file: what the page shows of how it was understood. */
  readonly layouts: readonly FileLayout[];
};

/**
 * Reads the files of one visit as one record.
 * @throws ImportError where reading cannot go on; its problem is "stopped" where `stop` was set
 */
export async function importLog(
  files: readonly LogFile[],
  choices: ImportChoices = NO_CHOICES,
  onProgress: (progress: ImportProgress, sketch: () => readonly SketchedColumn[]) => void = () => {},
  stop: { readonly aborted: boolean } | null = null,
): Promise<ImportResult> {
  if (files.length === 0) throw new ImportError({ id: "no-files" });
  const opened = await openContainers(files);
  const totalBytes = opened.reduce((sum, file) => sum + file.bytes, 0);
  const parts: FilePart[] = [];
  const read: OpenedFile[] = [];
  const leftOut: ImportError[] = [];
  let rowsBefore = 0;
  let bytesBefore = 0;
  const starts = startsByName(
    opened.map(({ name }) => name),
    choices,
  );
  const choicesFor = new Map(opened.map((file, i) => [file, starts[i]]));
  const choicesOn = (file: OpenedFile) => choicesFor.get(file) ?? choices;
  for (const file of opened) {
    const watch: Watch = (rows, bytes, sketch) => {
      if (stop?.aborted) throw new ImportError({ id: "stopped" });
      onProgress({ rows: rowsBefore + rows, bytes: bytesBefore + Math.min(bytes, file.bytes), totalBytes }, sketch);
    };
    const part = await readOrLeaveOut(file, choicesOn(file), watch, leftOut);
    bytesBefore += file.bytes;
    if (part === null) continue;
    parts.push(part);
    rowsBefore += part.rows.accepted;
    read.push(file);
  }
  leaveOutNotes(parts, read, leftOut);
  for (const lent of borrowDateOrders(parts)) {
    const own = choicesOn(read[lent.at]);
    const known = { ...own, answers: { ...own.answers, "date-order": lent.order } };
    parts[lent.at] = withOrderNote(await readFile(read[lent.at], known, () => {}), lent);
  }
  for (const lent of borrowHeadings(parts)) {
    parts[lent.at] = withHeadings(await readFile(read[lent.at], choicesOf(lent, choicesOn(read[lent.at])), () => {}), lent);
  }
  if (parts.length === 0) throw leftOut[0];
  refuseUnknownColumns(parts, choices);
  const record = joinParts(parts, choices);
  const notes = leftOut.map(({ problem }): ReadingNote => ({ kind: "left-out", problem }));
  const cut = read.filter(({ wasCut }) => wasCut?.() === true);
  notes.push(...cut.map(({ name }) => ({ kind: "cut-off", file: name }) as const));
  return { record: { ...record, notes: [...record.notes, ...notes] }, layouts: parts.map((part) => part.layout) };
}

/** One of several files in an archive that is no log is left out and said; a file that a person gave is not. */
async function readOrLeaveOut(file: OpenedFile, choices: ImportChoices, watch: Watch, leftOut: ImportError[]): Promise<FilePart | null> {
  try {
    return await readFile(file, choices, watch);
  } catch (error) {
    if (!(error instanceof ImportError) || !file.mayBeLeftOut || error.problem.id === "stopped") throw error;
    leftOut.push(error);
    return null;
  }
}

/** A sheet of remarks that happens to hold a date and a number ("Start", "Channels") is no log beside one of many rows. */
function leaveOutNotes(parts: FilePart[], read: OpenedFile[], leftOut: ImportError[]): void {
  if (!parts.some(({ rows }) => rows.accepted >= MANY_ROWS)) return;
  for (let k = parts.length - 1; k >= 0; k--) {
    const { rows, clock, questions } = parts[k];
    const isTimeless = clock.kind === "elapsed" && questions.some(({ id }) => id === "interval") && rows.accepted < MANY_ROWS;
    if (!read[k].mayBeLeftOut || (rows.accepted > 1 && !isTimeless)) continue;
    leftOut.push(new ImportError({ id: "no-table", file: parts[k].file.name, row: 1 }));
    parts.splice(k, 1);
    read.splice(k, 1);
  }
}

/** @throws ImportError where a choice names a column that no file has */
function refuseUnknownColumns(parts: readonly FilePart[], { columns }: ImportChoices): void {
  const headings = new Set(parts.flatMap((part) => [...part.columns, ...part.channels].map(({ heading }) => heading)));
  const unknown = columns.find(({ heading }) => !headings.has(heading));
  if (unknown !== undefined) throw new ImportError({ id: "unknown-column", heading: unknown.heading, headings: [...headings] });
}
