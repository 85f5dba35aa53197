import { randomUUID } from "node:crypto";
import { writeFileSync } from "node:fs";
import { rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import * as v from "valibot";
import { analyse } from "../../analysis/analyse";
import { writeFindings } from "../../analysis/document/findings-document";
import { readPlainPart } from "../../analysis/import/body/plain-part";
import { type ImportChoices, importLog, type LogFile, NO_CHOICES } from "../../analysis/import/import-log";
import { writeRecord } from "../../analysis/import/write-record";
import { ImportError } from "../../shared/problems/import-problem";
import { SiteFileError } from "../../shared/problems/site-file-problem";
import { CHANNEL_ROLES } from "../../shared/record/channel-role";
import type { FileLayout } from "../../shared/record/file-layout";
import type { LogRecord } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import { readVisitFile, writeVisitFile } from "../../shared/schemas/visit-file";
import { findingsSchema } from "../../shared/schemas/visit-parts";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import { US_UNITS } from "../../shared/units/unit-choice";
import { sayImportProblem } from "../../shared/wording/import-problem";
import { saySiteFileProblem } from "../../shared/wording/site-file-problem";
import { sayLostPart, sayVisitFileProblem } from "../../shared/wording/visit-file-problem";
import { readSiteFile } from "../../src/command-line/files";
import { printSummary } from "../../src/command-line/print-summary";
import { reportOf } from "../../src/report/report-of-record";
import { archivedVisits, type FromArchive } from "../../src/storage/archive";
import { linesOf } from "../../src/views/round/read-round-files";
import { readRoundFile, readRoundLines } from "../../src/views/round/round-entry";
import { roundCsv } from "../../src/views/round/round-export";
import { arrange, roundRows } from "../../src/views/round/round-rows";
import { logFile } from "../builders/log-file";
import { bareOrder } from "../builders/report-order";

/** What came of one input, in words that tell one kind of outcome from another: an input with a new word is worth changing further. */
export type Features = readonly string[];
/** Throws where an input is not taken as it must be. */
export type Check = (bytes: Uint8Array) => Promise<Features>;

/** A broken promise: the message names it, so that the same fault is told from another. */
export class Fault extends Error {
  override readonly name = "Fault";
}
const demand = (holds: boolean, promise: string) => {
  if (!holds) throw new Fault(promise);
};

/** The longest sentence that a person would still read; a hostile cell must not fill the screen. */
const LONGEST_SENTENCE = 3000;
/** A refusal must be a sentence: something to read, ended, and without the marks of a value that was forgotten. */
function sentence(text: string, input: string): void {
  demand(/^\S[\s\S]{10,}[.!?]$/u.test(text), "a refusal is no sentence");
  demand(text.length <= LONGEST_SENTENCE, "a refusal is longer than anyone reads");
  for (const mark of ["undefined", "[object Object]", "NaN"])
    demand(!text.includes(mark) || input.includes(mark), `a refusal says "${mark}"`);
}

const decoded = (bytes: Uint8Array) => new TextDecoder().decode(bytes);
/** The input as a reader may see it, NUL bytes being padding: a mark that stands in it may stand in what is said of it. */
const asSeen = (bytes: Uint8Array) => `${decoded(bytes)}\n${decoded(bytes).replaceAll("\0", "")}`;

/** What every record promises: instants rise and lie inside it, values are as many as instants, none is infinite. */
function soundRecord(record: LogRecord): void {
  demand(Number.isFinite(record.duration) && record.duration >= 0, "a record without a length");
  for (const { sampling, values } of record.channels) {
    const count = sampleCount(sampling);
    demand(count === values.length, "as many values as instants");
    let last = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      const at = timeAt(sampling, i);
      demand(at > last && at >= -1e-6 && at <= record.duration * (1 + 1e-9) + 1e-6, "instants rise and lie inside the record");
      demand(Number.isNaN(values[i]) || Number.isFinite(values[i]), "no value is infinite");
      last = at;
    }
  }
  demand(record.rejects.length <= Math.min(100, record.rows.rejected), "rejected rows are counted");
}

/** The record as it is written for other programs: a row for each accepted one, as many cells in each, no formula, numbers that are numbers. */
function soundWritten(record: LogRecord): void {
  const [headings, ...rows] = Papa.parse<string[]>([...writeRecord(record)].join("").trimEnd()).data; // an independent reader of RFC 4180
  const read = record.origins.reduce((sum, { sampling }) => sum + sampleCount(sampling), 0); // columns with a clock of their own have rows of their own
  demand(rows.length === read && read >= record.rows.accepted, "a row is written for each accepted row");
  demand(!headings.some((heading) => /^[=+\-@\t\r]/.test(heading)), "a written heading is a formula");
  let last = Number.NEGATIVE_INFINITY;
  for (const [line, instant, ...cells] of rows) {
    demand(cells.length + 2 === headings.length, "written rows are as long as their headings");
    demand(/^[1-9]\d*$/.test(line), "a written row names its line");
    const at = record.clock.kind === "absolute" ? Date.parse(instant) : Number(instant);
    demand(at >= last, "written rows stand in order of time");
    last = at;
    for (let c = 0; c < record.channels.length; c++) demand(Number.isFinite(Number(cells[c])), "a written cell is no number");
  }
}

/** What JSON cannot say (NaN, infinite, undefined) must not stand in a document. */
function plainDocument(value: unknown): void {
  if (typeof value === "number") demand(Number.isFinite(value), "a document holds a number that JSON cannot say");
  else if (value === undefined) throw new Fault("a document holds something undefined");
  else if (typeof value === "object" && value !== null) for (const inner of Object.values(value)) plainDocument(inner);
}

/** From the record to what a person reads: no detector may break, and nothing from the file may become markup. */
function followThrough(record: LogRecord, input: string): Features {
  const analysis = analyse(record, NO_SITE_FACTS);
  const broken = analysis.outcomes.find((o) => o.state === "broken");
  demand(broken === undefined, `a detector breaks: ${broken?.kind}`);
  const units = unitsAsInFile(record);
  const document = writeFindings(record, analysis, units);
  plainDocument(document);
  v.parse(findingsSchema, JSON.parse(JSON.stringify(document)));
  const shown = printSummary(document);
  for (const mark of ["undefined", "[object Object]", "NaN", "Infinity"])
    demand(!shown.includes(mark) || input.includes(mark), `the summary says "${mark}"`);
  const report = reportOf(record, document, bareOrder(units, { siteName: input.slice(0, 80) }));
  demand(
    !/<(?:script|img|iframe|object|a)\b(?!>)|\son[a-z]+=|javascript:/i.test(report.replace(/>[^<]*</g, "><").replace(/="[^"]*"/g, '=""')),
    "the report holds foreign markup",
  );
  return analysis.outcomes.map((o) => `${o.kind} ${o.state}`);
}

/** Features of how a log was read. */
function readingFeatures(
  record: LogRecord,
  layout: { readonly dialect: string; readonly encoding: string; readonly delimiter: string; readonly clock: FileLayout["clock"] },
): Features {
  return [
    `dialect ${layout.dialect} ${layout.encoding} ${layout.delimiter}`,
    `clock ${layout.clock.map(({ kind }) => kind).join(" ")}`,
    ...record.channels.map((c) => `channel ${c.role} ${c.quantity} ${c.unitInFile} ${c.sampling.kind}`),
    ...record.questions.map(({ id }) => `question ${id.replace(/:.*/s, "")}`),
    ...record.notes.map(({ kind }) => `note ${kind}`),
    ...record.faults.map(({ kind }) => `fault ${kind}`),
    ...record.rejects.slice(0, 5).map(({ why }) => `reject ${why.kind}`),
  ];
}

async function readsOrRefuses(bytes: Uint8Array, choices: ImportChoices, name: string, chunk: number, memory: string): Promise<Features> {
  try {
    const { record, layouts } = await importLog([logFile(bytes, name, chunk)], choices);
    soundRecord(record);
    soundWritten(record);
    return [...readingFeatures(record, layouts[0]), ...followThrough(record, memory)];
  } catch (error) {
    if (!(error instanceof ImportError)) throw error;
    sentence(sayImportProblem(error.problem, null), memory);
    return [`refused ${error.problem.id}`];
  }
}

/** The record as one value; a missing number is one like any other. */
const asOne = (record: LogRecord): string =>
  JSON.stringify(record, (_, value: unknown) =>
    ArrayBuffer.isView(value) ? Array.from(value as Float64Array, (n) => (Number.isNaN(n) ? "missing" : n)) : value,
  );
const outcomeOf = (file: LogFile): Promise<string> =>
  importLog([file], NO_CHOICES).then(
    ({ record }) => asOne(record),
    (error: unknown) => {
      if (error instanceof ImportError) return JSON.stringify(error.problem);
      throw error;
    },
  );
/** In one piece, in small ones, and in two parts as with a thread for the second: one record, or one refusal. */
async function sameHoweverRead(bytes: Uint8Array): Promise<void> {
  const whole: LogFile = { ...logFile(bytes, "log.csv", bytes.length + 1), slice: async (from, to) => bytes.slice(from, to) };
  const parted: LogFile = { ...whole, readTail: (from, choices) => readPlainPart(whole, from, choices) };
  const one = await outcomeOf(whole);
  demand((await outcomeOf(logFile(bytes, "log.csv", 1 + (bytes.length % 97)))) === one, "small pieces are read as another record");
  demand((await outcomeOf(parted)) === one, "a file in two parts is read as another record");
}

/** A file given to the importer; how it is cut into chunks depends on its length, and must not matter. */
const importer: Check = async (bytes) => {
  if (bytes.length % 3 === 0) await sameHoweverRead(bytes);
  return readsOrRefuses(bytes, NO_CHOICES, "log.csv", 1 + (bytes.length % 700), asSeen(bytes));
};

/** What is packed may hold any of the marks as a heading of its own. */
const PACKED = "undefined [object Object] NaN Infinity";
const containers: Check = (bytes) => readsOrRefuses(bytes, NO_CHOICES, "log.zip", 1 + (bytes.length % 7000), PACKED);

const strings = v.record(v.string(), v.string());
const orderSchema = v.object({
  log: v.string(),
  answers: strings,
  columns: v.array(v.object({ heading: v.string(), role: v.picklist(CHANNEL_ROLES), unit: v.nullable(v.string()) })),
  zone: v.nullable(v.string()),
});
/** A log with what a person said about it: JSON of log, answers, columns, zone. */
const corrections: Check = async (bytes) => {
  const order = v.safeParse(orderSchema, JSON.parse(decoded(bytes)));
  if (!order.success) return [];
  const { log, ...choices } = order.output;
  return readsOrRefuses(new TextEncoder().encode(log), choices, "log.csv", 4096, `${decoded(bytes)}\n${log.replaceAll("\0", "")}`);
};

/** Read from disk as the command line does. */
const siteFile: Check = async (bytes) => {
  const path = join(tmpdir(), `site-${randomUUID()}.json`);
  writeFileSync(path, bytes);
  try {
    const site = await readSiteFile(path);
    for (const fact of Object.values(site)) {
      const value: unknown = typeof fact === "object" && fact !== null && "value" in fact ? fact.value : null;
      demand(typeof value !== "number" || Number.isFinite(value), "a site fact is not finite");
    }
    return Object.entries(site).map(([key, fact]) => `fact ${key} ${fact === null}`);
  } catch (error) {
    if (!(error instanceof SiteFileError)) throw error;
    sentence(saySiteFileProblem(error.problem), decoded(bytes));
    return [`refused ${error.problem.id}`];
  } finally {
    await rm(path);
  }
};

/** Never throws; what is read is written again and read the same; what is lost is said. */
const visit: Check = async (bytes) => {
  const text = decoded(bytes);
  const read = readVisitFile(text);
  if (read.visit === null) {
    sentence(sayVisitFileProblem(read.problem, "visit.json"), text);
    return [`refused ${read.problem.id}`];
  }
  for (const lost of read.lost) demand(sayLostPart(lost).endsWith("."), "a lost part is no sentence");
  const again = readVisitFile(writeVisitFile(read.visit));
  demand(again.visit !== null && writeVisitFile(again.visit) === writeVisitFile(read.visit), "a visit is not read back as it was written");
  return read.lost.map(({ part, why }) => `lost ${part} ${why}`);
};

/** Visit files and zips of them as the page opens them. */
const archive: Check = async (bytes) => {
  const visits: Extract<FromArchive, { text: string }>[] = [];
  for await (const one of archivedVisits([new File([Uint8Array.from(bytes)], "visits.zip")])) if ("text" in one) visits.push(one);
  for (const { text } of visits) await visit(new TextEncoder().encode(text));
  return [`visits ${Math.min(3, visits.length)}`, ...visits.map(({ files }) => `files ${files.length}`)];
};

/** Findings documents and visit files as a round of many visits takes them in. */
const findings: Check = async (bytes) => {
  const text = decoded(bytes);
  const read = [readRoundFile("a.json", text), await readRoundLines("a.jsonl", linesOf(new Blob([text])))];
  for (const { problem } of read) if (problem !== null) sentence(problem, text);
  const rows = arrange(
    roundRows(
      read.flatMap(({ entries }) => entries),
      NO_SITE_FACTS,
      US_UNITS,
    ),
    "last-visit",
    "",
    "all",
  );
  const csv = roundCsv(rows, 1.7e12);
  demand(!/(?:^|,|\n)"?[=+@\t]/.test(csv), "the exported table holds a formula");
  demand(!/NaN|undefined|\[object/.test(csv) || /NaN|undefined|\[object/.test(text), "the exported table holds what is no value");
  return [`rows ${Math.min(3, rows.length)}`, ...read.map(({ problem }) => `problem ${problem?.replace(/\d+/g, "")}`)];
};

export const CHECKS = { importer, containers, corrections, "site-file": siteFile, visit, archive, findings } satisfies Record<
  string,
  Check
>;
export type TargetId = keyof typeof CHECKS;
export const TARGET_IDS = [
  "importer",
  "containers",
  "corrections",
  "site-file",
  "visit",
  "archive",
  "findings",
] as const satisfies readonly TargetId[];
