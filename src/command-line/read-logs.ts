import { type ImportChoices, importLog } from "../../analysis/import/import-log";
import type { LogRecord } from "../../shared/record/log-record";
import { hashed, openLog } from "./files";

/** One record from files on disk, each with its fingerprint, which is taken while it is read. @throws ImportError */
export async function readLogs(paths: readonly string[], choices: ImportChoices): Promise<LogRecord> {
  const files = (await Promise.all(paths.map(openLog))).map(hashed);
  const { record } = await importLog(files, choices);
  const prints = await Promise.all(files.map((file) => file.fingerprint()));
  // an archive gives several files or another name: what is in it has no fingerprint of its own
  const printOf = (name: string, i: number) => prints[files[i]?.name === name ? i : files.findIndex((file) => file.name === name)] ?? null;
  return { ...record, files: record.files.map((file, i) => ({ ...file, sha256: file.sha256 ?? printOf(file.name, i) })) };
}
