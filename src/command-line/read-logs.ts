import { type ImportChoices, importLog } from "../../analysis/import/import-log";
import type { LogRecord } from "../../shared/record/log-record";
import { type HashedLog, hashed, openLog } from "./files";

/** One record from files on disk. @throws ImportError */
export const readLogs = async (paths: readonly string[], choices: ImportChoices): Promise<LogRecord> =>
  readFiles((await Promise.all(paths.map(openLog))).map(hashed), choices);

/** One record from its files, each with its fingerprint, which is taken while it is read. @throws ImportError */
export async function readFiles(files: readonly HashedLog[], choices: ImportChoices): Promise<LogRecord> {
  const { record } = await importLog(files, choices);
  const prints = await Promise.all(files.map((file) => file.fingerprint()));
  // an archive gives several files or another name: what is in it has no fingerprint of its own
  const printOf = (name: string, i: number) => prints[files[i]?.name === name ? i : files.findIndex((file) => file.name === name)] ?? null;
  return { ...record, files: record.files.map((file, i) => ({ ...file, sha256: file.sha256 ?? printOf(file.name, i) })) };
}
