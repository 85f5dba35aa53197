import type { ChannelRole } from "../../shared/record/channel-role";
import type { FileLayout } from "../../shared/record/file-layout";
import type { LogRecord } from "../../shared/record/log-record";

/** A file to read. `open` may be called more than once (first for the head, then for the whole). */
export type LogFile = {
  readonly name: string;
  readonly bytes: number;
  /** Known only where the face that opened the file has worked it out. */
  readonly sha256: string | null;
  open(): AsyncIterable<Uint8Array>;
};

/** What a person decided, instead of what would be assumed. */
export type ImportChoices = {
  /** Question id to answer, e.g. { "date-order": "dmy", "range:Ch1": "0..10 bar" }. */
  readonly answers: Readonly<Record<string, string>>;
  /** Heading to role and unit; unit null keeps what was read. */
  readonly columns: readonly { readonly heading: string; readonly role: ChannelRole; readonly unit: string | null }[];
  /** IANA name or offset from the site facts. */
  readonly zone: string | null;
};

export const NO_CHOICES: ImportChoices = { answers: {}, columns: [], zone: null };

export type ImportProgress = { readonly rows: number; readonly bytes: number; readonly totalBytes: number };

export type ImportResult = {
  readonly record: LogRecord;
  /** One a file: what the page shows of how it was understood. */
  readonly layouts: readonly FileLayout[];
};

/**
 * Reads the files of one visit as one record.
 * @throws ImportError where reading cannot go on
 */
export async function importLog(
  _files: readonly LogFile[],
  _choices: ImportChoices = NO_CHOICES,
  _onProgress: (progress: ImportProgress) => void = () => {},
  _stop: { readonly aborted: boolean } | null = null,
): Promise<ImportResult> {
  throw new Error("not built yet");
}
