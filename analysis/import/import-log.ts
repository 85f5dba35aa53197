import { ImportError } from "../../shared/problems/import-problem";
import type { FileLayout } from "../../shared/record/file-layout";
import type { LogRecord } from "../../shared/record/log-record";
import type { Watch } from "./body/read-body";
import type { FilePart } from "./file-part";
import { type ImportChoices, NO_CHOICES } from "./import-choices";
import { joinParts } from "./join-files";
import { readFile } from "./read-file";

export { type ImportChoices, NO_CHOICES };

/** A file to read. `open` may be called more than once (first for the head, then for the whole). */
export type LogFile = {
  readonly name: string;
  readonly bytes: number;
  /** Known only where the face that opened the file has worked it out. */
  readonly sha256: string | null;
  open(): AsyncIterable<Uint8Array>;
  /** Bytes from (included) to (left out), where the source can be read at any place: spares a pass over a large file. */
  readonly slice?: (from: number, to: number) => Promise<Uint8Array>;
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
  onProgress: (progress: ImportProgress) => void = () => {},
  stop: { readonly aborted: boolean } | null = null,
): Promise<ImportResult> {
  if (files.length === 0) throw new ImportError({ id: "no-files" });
  const totalBytes = files.reduce((sum, file) => sum + file.bytes, 0);
  const parts: FilePart[] = [];
  let rowsBefore = 0;
  let bytesBefore = 0;
  for (const file of files) {
    const watch: Watch = (rows, bytes) => {
      if (stop?.aborted) throw new ImportError({ id: "stopped" });
      onProgress({ rows: rowsBefore + rows, bytes: bytesBefore + bytes, totalBytes });
    };
    const part = await readFile(file, choices, watch);
    parts.push(part);
    rowsBefore += part.rows.accepted;
    bytesBefore += file.bytes;
  }
  return { record: joinParts(parts), layouts: parts.map((part) => part.layout) };
}
