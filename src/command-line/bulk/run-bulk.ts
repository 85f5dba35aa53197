import { mkdir, readdir, rm } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import { forTerminal } from "../for-terminal";
import type { AnalyseOptions } from "../options";
import { writeWhole } from "../write-whole";
import { findLogs } from "./find-logs";
import { FINDINGS_COLUMNS } from "./findings-row";
import { documentPath, type JobDone, readKept } from "./job";
import { runOnWorkers } from "./worker-pool";

type Row = { readonly name: string; readonly document: FindingsDocument };

/**
 * Analyses every log of a folder on all cores. Each finished log is on disk before the next is taken, so an interrupted run goes on where it
 * stopped when it is called again. At the end: findings.jsonl, findings.parquet, columns.txt, and a table on standard output.
 * @returns 0, or 3 where a log could not be read
 */
export async function runBulk(folder: string, options: AnalyseOptions): Promise<number> {
  const out = options.out ?? folder;
  const logs = await findLogs(folder, options.site);
  if (logs.length === 0) {
    console.error(`${folder} holds no logs (.csv, .tsv, .txt, .log, .dat, .zip, .xlsx).`);
    return 3;
  }
  await mkdir(out, { recursive: true });
  await removeHalves(out);
  const done: JobDone[] = [];
  const jobs = logs.map((log) => ({ log, out, limits: options.limits, units: options.units }));
  await runOnWorkers(jobs, availableParallelism(), (one) => {
    done.push(one);
    console.error(
      forTerminal(
        `${done.length} of ${logs.length}  ${one.name}${one.kept ? " (done before)" : ""}${one.error === null ? "" : `  ${one.error}`}`,
      ),
    );
  });
  const rows = await readRows(
    logs.map((log) => log.name),
    out,
  );
  await writeTables(rows, out);
  process.stdout.write(forTerminal(table(rows)));
  return rows.length < logs.length || rows.some(({ document }) => document.error !== null) ? 3 : 0;
}

/** Files that a run which was killed left half written beside their place. */
async function removeHalves(out: string): Promise<void> {
  const entries = await readdir(join(out, "logs"), { withFileTypes: true, recursive: true }).catch(() => []);
  const halves = entries.filter((entry) => entry.isFile() && /\.findings\.json\.[0-9a-f]{8}\.part$/.test(entry.name));
  await Promise.all(halves.map((entry) => rm(join(entry.parentPath, entry.name), { force: true })));
}

async function readRows(names: readonly string[], out: string): Promise<readonly Row[]> {
  const kept = await Promise.all(names.map(async (name) => ({ name, kept: await readKept(documentPath(out, name)) })));
  return kept.flatMap(({ name, kept: found }) => (found === null ? [] : [{ name, document: found.document }]));
}

async function writeTables(rows: readonly Row[], out: string): Promise<void> {
  const { parquetWriteBuffer } = await import("hyparquet-writer");
  const columnData = FINDINGS_COLUMNS.map(({ name, type, of }) => ({
    name,
    type,
    data: rows.map((row) => of(row.document, row.name)),
    nullable: true,
  }));
  await writeWhole(join(out, "findings.parquet"), new Uint8Array(parquetWriteBuffer({ columnData })));
  await writeWhole(
    join(out, "findings.jsonl"),
    rows.map(({ document }) => `${JSON.stringify(document)}\n`),
  );
  await writeWhole(
    join(out, "columns.txt"),
    FINDINGS_COLUMNS.map(({ name, type, about }) => `${name}\t${type.toLowerCase()}\t${about}\n`).join(""),
  );
}

const SHOWN = [
  "log",
  "starts",
  "peak_starts_per_hour",
  "short_cycles",
  "oscillation_episodes",
  "drift_over",
  "first_cause",
  "first_confidence",
];

/** The summary of a bulk run: what needs attention first. */
function table(rows: readonly Row[]): string {
  const columns = FINDINGS_COLUMNS.filter(({ name }) => SHOWN.includes(name));
  const weight = ({ document }: Row) => (document.error !== null ? 0 : document.findings.filter((f) => f.overLimit === true).length);
  const body = rows
    .toSorted((a, b) => weight(b) - weight(a) || (a.name < b.name ? -1 : 1))
    .map(({ name, document }) =>
      document.error === null ? columns.map(({ of }) => cell(of(document, name))) : [name, `not read: ${document.error.kind}`],
    );
  const lines = [columns.map(({ name }) => name.replaceAll("_", " ")), ...body];
  const widths = columns.map((_, i) =>
    lines.reduce((most, line) => Math.max(most, line.length === columns.length ? line[i].length : 0), 0),
  );
  return `${lines.map((line) => line.map((text, i) => (i < line.length - 1 ? text.padEnd(widths[i]) : text)).join("  ")).join("\n")}\n${rows.length} logs, ${rows.filter((row) => weight(row) > 0).length} over a limit, ${rows.filter(({ document }) => document.error !== null).length} not read.\n`;
}

const cell = (value: string | number | boolean | null): string =>
  value === null ? "-" : typeof value === "number" ? String(Math.round(value * 100) / 100) : String(value);
