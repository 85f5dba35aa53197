import { mkdir, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { refusedDocument } from "../../../analysis/document/findings-document";
import { NO_CHOICES } from "../../../analysis/import/import-log";
import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { PROGRAM_VERSION } from "../../../shared/version";
import { analyseFiles } from "../analyse-files";
import { hashed, openLog } from "../files";
import { writeWhole } from "../write-whole";
import type { FoundLog } from "./find-logs";

export type Job = { readonly log: FoundLog; readonly out: string; readonly limits: string | null; readonly units: UnitChoice | null };
export type JobDone = { readonly name: string; readonly kept: boolean; readonly error: string | null };

export const documentPath = (out: string, name: string): string => join(out, "logs", `${name}.findings.json`);

/** What a finished document was made from: the same key means that it need not be made again. */
type Stamp = { readonly program: string; readonly log: string | null; readonly site: string | null; readonly limits: string | null };
export type KeptDocument = { readonly stamp: Stamp; readonly document: FindingsDocument };

/** Analyses one log of a bulk run, unless its document is there already and was made from the same log, site facts and version. */
export async function runJob({ log, out, limits, units }: Job): Promise<JobDone> {
  const path = documentPath(out, log.name);
  const stamp: Stamp = {
    program: PROGRAM_VERSION,
    log: await fingerprint(log.path),
    site: log.site === null ? null : await readFile(log.site, "utf8").catch(() => null),
    limits: limits === null ? null : await readFile(limits, "utf8").catch(() => null),
  };
  const kept = await readKept(path);
  if (
    kept !== null &&
    kept.stamp.program === stamp.program &&
    kept.stamp.log === stamp.log &&
    kept.stamp.site === stamp.site &&
    kept.stamp.limits === stamp.limits &&
    stamp.log !== null
  ) {
    return { name: log.name, kept: true, error: kept.document.error?.message ?? null };
  }
  const document = await analyseSafely(log, limits, units);
  await mkdir(dirname(path), { recursive: true });
  await writeWhole(path, JSON.stringify({ stamp, document } satisfies KeptDocument));
  return { name: log.name, kept: false, error: document.error?.message ?? null };
}

/** One bad log never stops the rest: a defect of ours on one log becomes that log's error. */
async function analyseSafely(log: FoundLog, limits: string | null, units: UnitChoice | null): Promise<FindingsDocument> {
  try {
    return await analyseFiles({ paths: [log.path], site: log.site, limits, choices: NO_CHOICES, units, predict: false });
  } catch (error) {
    return refusedDocument({
      kind: "defect",
      message: `${log.name} met a defect of this program: ${error instanceof Error ? error.message : String(error)}`,
      file: log.name,
      row: null,
    });
  }
}

const fingerprint = async (path: string): Promise<string | null> =>
  openLog(path)
    .then((file) => hashed(file).fingerprint())
    .catch(() => null);

/** A kept document, or null where there is none or it is damaged. */
export async function readKept(path: string): Promise<KeptDocument | null> {
  try {
    const kept: unknown = JSON.parse(await readFile(path, "utf8"));
    return typeof kept === "object" && kept !== null && "stamp" in kept && "document" in kept ? (kept as KeptDocument) : null;
  } catch {
    return null;
  }
}
