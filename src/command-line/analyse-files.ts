import { basename } from "node:path";
import { analyse } from "../../analysis/analyse";
import { refusedDocument, writeFindings } from "../../analysis/document/findings-document";
import type { ImportChoices } from "../../analysis/import/import-log";
import type { LogRecord } from "../../shared/record/log-record";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import type { FindingsDocument } from "../../shared/schemas/findings-document";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { readSiteFile } from "./files";
import { readLogs } from "./read-logs";
import { refusalOf } from "./refusal";

export type AnalysisOrder = {
  readonly paths: readonly string[];
  readonly site: string | null;
  readonly choices: ImportChoices;
  /** Null: units as in the file. */
  readonly units: UnitChoice | null;
};

/** One record from its files; a file that cannot be read becomes a document with its error filled in. */
export async function analyseFiles(
  order: AnalysisOrder,
  onRecord: (record: LogRecord) => Promise<void> = async () => {},
): Promise<FindingsDocument> {
  try {
    const site = order.site === null ? NO_SITE_FACTS : await readSiteFile(order.site);
    const record = await readLogs(order.paths, { ...order.choices, zone: site.zone });
    await onRecord(record);
    return writeFindings(record, analyse(record, site), order.units ?? unitsAsInFile(record));
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal === null) throw error;
    return refusedDocument({ ...refusal, file: refusal.file ?? order.paths.map((path) => basename(path)).join(", ") });
  }
}
