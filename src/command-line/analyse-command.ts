import { stat } from "node:fs/promises";
import { writeRecord } from "../../analysis/import/write-record";
import type { LogRecord } from "../../shared/record/log-record";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { eventsCsv } from "../report/events-csv";
import { analyseFiles, analyseOneOfMany } from "./analyse-files";
import { forTerminal } from "./for-terminal";
import { type AnalyseOptions, readAnalyseOptions, UsageError } from "./options";
import { printSummary } from "./print-summary";
import { writeWhole } from "./write-whole";

const HELP = `analyse FILE... [options]     read one record from its files and print what it shows
  --site SITE.json            site facts (set pressure, tank, pump, limits)
  --limits LIMITS.json        limits of the company, where the site gives none (the page writes such a file)
  --json                      print the findings document instead of a summary
  --each                      every file is a record of its own; one JSON line each
  --each FOLDER --out FOLDER  all logs of a folder, on all cores; may be interrupted and called again
  --record OUT.csv            also write the record as it was read, in SI
  --events OUT.csv            also write all events (runs, short runs, oscillations, drifts, log faults), one a row, in SI
  --predict                   fit a model to the log and say what each change would do here; takes some seconds more
  --answer ID=VALUE           answer a question, e.g. --answer date-order=dmy
  --column "HEADING=role:unit"  say what a column is
  --units us|metric           units of the summary (default: as in the file)
  --out FILE                  write to FILE instead of standard output
Exit code: 0 analysed, 2 wrong usage, 3 a file could not be read as a log,
  4 a file could not be written.`;

/** Analyses logs and prints findings. @returns 0 or 3     @throws UsageError */
export async function runAnalyse(args: readonly string[]): Promise<number> {
  const options = readAnalyseOptions(args);
  if (options.help) {
    console.log(HELP);
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
  if (files.length > 1) throw new UsageError("--each takes either files or one folder.");
  if (predict) throw new UsageError("--predict runs a model on each log; name the logs one by one.");
  if (out === null) throw new UsageError("A folder of logs needs a folder for the findings: --each FOLDER --out FOLDER");
  return files[0];
}

function printed(documents: readonly FindingsDocument[], options: AnalyseOptions): string {
  if (options.each) return documents.map((document) => `${JSON.stringify(document)}\n`).join("");
  if (options.json) return `${JSON.stringify(documents[0], null, 2)}\n`;
  return documents[0].error === null ? printSummary(documents[0]) : "";
}
