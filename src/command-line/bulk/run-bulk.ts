import { mkdir, readdir, rm } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { join } from "node:path";
import { sayOneDone } from "../../../shared/wording/findings-row";
import { NOT_DONE } from "../../../shared/wording/usage";
import { forTerminal, onOneLine } from "../for-terminal";
import type { AnalyseOptions } from "../options";
import { findLogs, LOG_ENDINGS } from "./find-logs";
import type { JobDone } from "./job";
import { summaryTable } from "./summary-table";
import { runOnWorkers } from "./worker-pool";
import { writeTables } from "./write-tables";

/**
 * Analyses every log of a folder on all cores. Each finished log is on disk before the next is taken, so an interrupted run goes on where it
 * stopped when it is called again. At the end: findings.jsonl, findings.parquet, columns.txt, and a table on standard output.
 * @returns 0, or 3 where a log could not be read
 */
export async function runBulk(folder: string, options: AnalyseOptions): Promise<number> {
  const out = options.out ?? folder;
  const logs = await findLogs(folder, options.site, out);
  if (logs.length === 0) {
    console.error(NOT_DONE.noLogs(folder, LOG_ENDINGS));
    return 3;
  }
  await mkdir(out, { recursive: true });
  await removeHalves(out);
  const done: JobDone[] = [];
  const { limits, choices, units, predict } = options;
  // The largest first: at the end no core waits for a long one.
  const jobs = logs.toSorted((a, b) => b.bytes - a.bytes).map((log) => ({ log, out, limits, choices, units, predict }));
  await runOnWorkers(jobs, availableParallelism(), (one) => {
    done.push(one);
    console.error(onOneLine(sayOneDone(done.length, logs.length, one.name, one.kept, one.error)));
  });
  const rows = await writeTables(
    done.toSorted((a, b) => (a.name < b.name ? -1 : 1)),
    out,
  );
  process.stdout.write(forTerminal(summaryTable(rows)));
  return rows.some(({ error }) => error !== null) ? 3 : 0;
}

/** Files that a run which was killed left half written beside their place. */
async function removeHalves(out: string): Promise<void> {
  const entries = await readdir(join(out, "logs"), { withFileTypes: true, recursive: true }).catch(() => []);
  const halves = entries.filter((entry) => entry.isFile() && /\.findings\.json\.[0-9a-f]{8}\.part$/.test(entry.name));
  await Promise.all(halves.map((entry) => rm(join(entry.parentPath, entry.name), { force: true })));
}
