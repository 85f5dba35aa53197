import { basename } from "node:path";
import { analyse } from "../../analysis/analyse";
import { refusedDocument, writeFindings } from "../../analysis/document/findings-document";
import type { ImportChoices } from "../../analysis/import/import-log";
import type { LogRecord } from "../../shared/record/log-record";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { sayDefect } from "../../shared/wording/failure";
import { readFacts } from "./files";
import { predicted } from "./predicted";
import { readAnswered } from "./read-answered";
import { readLogs } from "./read-logs";
import { refusalOf } from "./refusal";
import { WriteError } from "./write-whole";

export type AnalysisOrder = {
  readonly paths: readonly string[];
  readonly site: string | null;
  /** File of company limits. */
  readonly limits: string | null;
  readonly choices: ImportChoices;
  /** Null: units as in the file. */
  readonly units: UnitChoice | null;
  /** Run the fitted model for each step of the advice. */
  readonly predict: boolean;
};

/** One of many: a defect of ours on one log becomes that log's error and never stops the rest. */
export async function analyseOneOfMany(order: AnalysisOrder, onRecord?: (record: LogRecord) => Promise<void>): Promise<FindingsDocument> {
  const file = order.paths.map((path) => basename(path)).join(", ");
  // What one log asks another may not: an answer that is given to all is no mistake on the log that does not ask.
  return analyseFiles(order, onRecord, (choices, read) => read(choices)).catch((error: unknown) => {
    // What cannot be written is no fault of the log.
    if (error instanceof WriteError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    return refusedDocument({ kind: "defect", message: sayDefect(file, why), file, row: null });
  });
}

/** One record from its files; a file that cannot be read becomes a document with its error filled in. */
export async function analyseFiles(
  order: AnalysisOrder,
  onRecord: (record: LogRecord) => Promise<void> = async () => {},
  read: typeof readAnswered = readAnswered,
): Promise<FindingsDocument> {
  try {
    const site = await readFacts(order.site, order.limits);
    const record = await read({ ...order.choices, zone: site.zone }, (choices) => readLogs(order.paths, choices));
    await onRecord(record);
    const analysis = analyse(record, site);
    const told = order.predict ? await predicted(record, analysis) : analysis;
    return writeFindings(record, told, order.units ?? unitsAsInFile(record));
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal === null) throw error;
    return refusedDocument({ ...refusal, file: refusal.file ?? order.paths.map((path) => basename(path)).join(", ") });
  }
}
