import { basename } from "node:path";
import { analyse } from "../../analysis/analyse";
import { refusedDocument, writeFindings } from "../../analysis/document/findings-document";
import { importLog } from "../../analysis/import/import-log";
import type { LogRecord } from "../../shared/record/log-record";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { openLog, readSiteFile, writeWhole } from "./files";
import { type AnalyseOptions, readAnalyseOptions } from "./options";
import { printSummary } from "./print-summary";
import { refusalOf } from "./refusal";

const HELP = `analyse FILE... [options]     read one record from its files and print what it shows
  --site SITE.json            site facts (set pressure, tank, pump, limits)
  --json                      print the findings document instead of a summary
  --each                      every file is a record of its own; one JSON line each
  --record OUT.csv            also write the record as it was read, in SI
  --answer ID=VALUE           answer a question, e.g. --answer date-order=dmy
  --column "HEADING=role:unit"  say what a column is
  --units us|metric           units of the summary (default: as in the file)
  --out FILE                  write to FILE instead of standard output
Exit code: 0 analysed, 2 wrong usage, 3 a file could not be read as a log.`;

/** Analyses logs and prints findings. @returns 0 or 3     @throws UsageError */
export async function runAnalyse(args: readonly string[]): Promise<number> {
  const options = readAnalyseOptions(args);
  if (options.help) {
    console.log(HELP);
    return 0;
  }
  const groups = options.each ? options.files.map((file) => [file]) : [options.files];
  const documents: FindingsDocument[] = [];
  for (const files of groups) {
    const document = await analyseFiles(files, options);
    if (options.each && options.out === null) process.stdout.write(`${JSON.stringify(document)}\n`);
    documents.push(document);
    if (document.error !== null) console.error(document.error.message);
  }
  const text = printed(documents, options);
  if (options.out !== null) await writeWhole(options.out, text);
  else if (!options.each) process.stdout.write(text);
  return documents.some((document) => document.error !== null) ? 3 : 0;
}

function printed(documents: readonly FindingsDocument[], options: AnalyseOptions): string {
  if (options.each) return documents.map((document) => `${JSON.stringify(document)}\n`).join("");
  if (options.json) return `${JSON.stringify(documents[0], null, 2)}\n`;
  return documents[0].error === null ? printSummary(documents[0]) : "";
}

/** One record from its files; a file that cannot be read becomes a document with its error filled in. */
async function analyseFiles(paths: readonly string[], options: AnalyseOptions): Promise<FindingsDocument> {
  const name = paths.map((path) => basename(path)).join(", ");
  try {
    const site = options.site === null ? NO_SITE_FACTS : await readSiteFile(options.site);
    const files = await Promise.all(paths.map(openLog));
    const { record } = await importLog(files, { ...options.choices, zone: site.zone });
    return documentOf(record, site, options);
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal !== null) return refusedDocument({ ...refusal, file: refusal.file ?? name });
    throw error;
  }
}

function documentOf(record: LogRecord, site: SiteFacts, options: AnalyseOptions): FindingsDocument {
  return writeFindings(record, analyse(record, site), options.units ?? unitsAsInFile(record));
}
