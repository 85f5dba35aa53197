import { basename, join } from "node:path";
import { refusedDocument } from "../../../analysis/document/findings-document";
import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import { sayDefect } from "../../../shared/wording/failure";
import { writeWhole } from "../write-whole";
import { COLUMNS_FILE } from "./find-logs";
import { FINDINGS_COLUMNS } from "./findings-row";
import { documentPath, type JobDone, type KeptDocument, readKept } from "./job";
import { type SummaryRow, summaryRow } from "./summary-table";

type Told = Pick<KeptDocument, "log" | "trace" | "document">;

/**
 * Writes findings.jsonl (a findings document a line, with the log's path and a small trace beside it), findings.parquet and columns.txt. One
 * document after the other is read: thousands together would not fit into memory. Every log has its line, also one whose worker ended.
 * @returns a row of the summary for each log, in the same order
 */
export async function writeTables(logs: readonly JobDone[], out: string): Promise<readonly SummaryRow[]> {
  const rows: SummaryRow[] = [];
  const columns = FINDINGS_COLUMNS.map((column) => ({ ...column, data: [] as ReturnType<typeof column.of>[] }));
  async function* lines(): AsyncGenerator<string> {
    for (const done of logs) {
      const { log, trace, document } = await toldOf(done, out);
      for (const column of columns) column.data.push(column.of(document, log));
      rows.push(summaryRow(log, document));
      yield `${JSON.stringify({ ...document, log, trace })}\n`;
    }
  }
  await writeWhole(join(out, "findings.jsonl"), lines());
  const { parquetWriteBuffer } = await import("hyparquet-writer");
  const columnData = columns.map(({ name, type, data }) => ({ name, type, data, nullable: true }));
  await writeWhole(join(out, "findings.parquet"), new Uint8Array(parquetWriteBuffer({ columnData })));
  await writeWhole(
    join(out, COLUMNS_FILE),
    FINDINGS_COLUMNS.map(({ name, type, about }) => `${name}\t${type.toLowerCase()}\t${about}\n`).join(""),
  );
  return rows;
}

/** What was kept of a log; where nothing could be (its worker ended, the disk is full), a document that says so. */
async function toldOf({ name, error, isLost }: JobDone, out: string): Promise<Told> {
  const kept = isLost ? null : await readKept(documentPath(out, name));
  return kept ?? { log: name, trace: null, document: lost(name, error ?? "") };
}

const lost = (name: string, why: string): FindingsDocument =>
  refusedDocument({ kind: "defect", message: sayDefect(name, why), file: basename(name), row: null });
