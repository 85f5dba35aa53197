import { stat } from "node:fs/promises";
import { writeRecord } from "../../analysis/import/write-record";
import type { LogRecord } from "../../shared/record/log-record";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { COMMAND_HELP } from "../../shared/wording/command-help";
import { USAGE } from "../../shared/wording/usage";
import { eventsCsv } from "../report/events-csv";
import { analyseFiles, analyseOneOfMany } from "./analyse-files";
import { forTerminal } from "./for-terminal";
import { type AnalyseOptions, readAnalyseOptions, UsageError } from "./options";
import { printSummary } from "./print-summary";
import { writeWhole } from "./write-whole";

/** Analyses logs and prints findings. @returns 0 or 3     @throws UsageError */
export async function runAnalyse(args: readonly string[]): Promise<number> {
  const options = readAnalyseOptions(args);
  if (options.help) {
    console.log(COMMAND_HELP.analyse);
    return 0;
  }
  const folder = options.each ? await onlyFolder(options) : null;
  if (folder !== null) return (await import("./bulk/run-bulk")).runBulk(folder, options);
  const groups = options.each ? options.files.map((file) => [file]) : [options.files];
  const documents: FindingsDocument[] = [];
  for (const files of groups) {
    const order = {
      paths: files,
      site: options.site,
      limits: options.limits,
      choices: options.choices,
      units: options.units,
      predict: options.predict,
    };
    const document = await (options.each ? analyseOneOfMany : analyseFiles)(order, (record) => saveRecord(options.record, record));
    if (options.each && options.out === null) process.stdout.write(`${JSON.stringify(document)}\n`);
    documents.push(document);
    if (options.events !== null && document.error === null) await writeWhole(options.events, eventsCsv(document));
    if (document.error !== null) console.error(forTerminal(document.error.message));
  }
  const text = printed(documents, options);
  if (options.out !== null) await writeWhole(options.out, text);
  else if (!options.each) process.stdout.write(text);
  return documents.some((document) => document.error !== null) ? 3 : 0;
}

/** The record as it was read, for people who want clean data. */
async function saveRecord(path: string | null, record: LogRecord): Promise<void> {
  if (path !== null) await writeWhole(path, writeRecord(record));
}

/** The folder of a bulk run, or null where single files are named. @throws UsageError where both are mixed or --out is missing */
async function onlyFolder({ files, out, predict }: AnalyseOptions): Promise<string | null> {
  const folders = await Promise.all(files.map(async (file) => (await stat(file).catch(() => null))?.isDirectory() === true));
  if (!folders.includes(true)) return null;
  if (files.length > 1) throw new UsageError(USAGE.eitherFilesOrFolder);
  if (predict) throw new UsageError(USAGE.predictOneByOne);
  if (out === null) throw new UsageError(USAGE.noFolderForFindings);
  return files[0];
}

function printed(documents: readonly FindingsDocument[], options: AnalyseOptions): string {
  if (options.each) return documents.map((document) => `${JSON.stringify(document)}\n`).join("");
  if (options.json) return `${JSON.stringify(documents[0], null, 2)}\n`;
  return documents[0].error === null ? printSummary(documents[0]) : "";
}
