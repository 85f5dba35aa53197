import { mkdir, readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { isDeepStrictEqual } from "node:util";
import { thinTrace } from "../../../analysis/document/thin-trace";
import type { ImportChoices } from "../../../analysis/import/import-log";
import type { LogRecord } from "../../../shared/record/log-record";
import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import type { ThinTrace as KeptTrace } from "../../../shared/schemas/visit-parts";
import { seconds } from "../../../shared/units/quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { PROGRAM_VERSION } from "../../../shared/version";
import { type AnalysisOrder, analyseOneOfMany } from "../analyse-files";
import { hashed, openLog } from "../files";
import { writeWhole } from "../write-whole";
import type { FoundLog } from "./find-logs";

/** One log of many; choices, units and whether to predict are the same for all. */
export type Job = Pick<AnalysisOrder, "limits" | "choices" | "units" | "predict"> & { readonly log: FoundLog; readonly out: string };
/** `isLost`: nothing could be written for it, so that what stands under its name, if anything, is of an earlier run. */
export type JobDone = { readonly name: string; readonly kept: boolean; readonly error: string | null; readonly isLost: boolean };

export const documentPath = (out: string, name: string): string => join(out, "logs", `${name}.findings.json`);

/** What a finished document was made from: the same key means that it need not be made again. */
type Stamp = {
  readonly form: number;
  readonly program: string;
  readonly log: string | null;
  readonly site: string | null;
  readonly limits: string | null;
  readonly choices: ImportChoices;
  readonly units: UnitChoice | null;
  readonly predict: boolean;
};
/** Counts the forms of what is kept of a log: 2 brought the log's path and the small trace. */
const FORM = 2;

/** A findings document with what a round of many needs beside it: the log's path from the folder, and a small picture of its pressure. */
export type KeptDocument = {
  readonly stamp: Stamp;
  readonly log: string;
  readonly trace: KeptTrace | null;
  readonly document: FindingsDocument;
};

/** Analyses one log of a bulk run, unless its document is there already and was made from the same log, site facts and version. */
export async function runJob({ log, out, limits, choices, units, predict }: Job): Promise<JobDone> {
  const path = documentPath(out, log.name);
  const stamp: Stamp = {
    form: FORM,
    program: PROGRAM_VERSION,
    log: await fingerprint(log.path),
    site: log.site === null ? null : await readFile(log.site, "utf8").catch(() => null),
    limits: limits === null ? null : await readFile(limits, "utf8").catch(() => null),
    choices,
    units,
    predict,
  };
  const kept = await readKept(path);
  if (kept !== null && stamp.log !== null && isDeepStrictEqual(kept.stamp, stamp))
    return { name: log.name, kept: true, error: kept.document.error?.message ?? null, isLost: false };
  let trace: KeptTrace | null = null;
  const order = { paths: [log.path], site: log.site, limits, choices, units, predict };
  const document = await analyseOneOfMany(order, async (record) => {
    trace = smallTrace(record);
  });
  await mkdir(dirname(path), { recursive: true });
  await writeWhole(path, JSON.stringify({ stamp, log: log.name, trace, document } satisfies KeptDocument));
  return { name: log.name, kept: false, error: document.error?.message ?? null, isLost: false };
}

/** Columns of the small picture: as many as a list of visits draws. */
const COLUMNS = 70;

/** The pressure of a record, thumbnail size, in the form of the trace of a visit file. */
function smallTrace(record: LogRecord): KeptTrace {
  const { channels } = thinTrace(record, { from: seconds(0), to: record.duration }, COLUMNS);
  const short = (values: readonly (number | null)[]) => values.map((value) => (value === null ? null : Number(value.toPrecision(4))));
  const pressure = channels.find(({ role }) => role === "pressure");
  const drawn = pressure === undefined ? [] : [{ ...pressure, low: short(pressure.low), high: short(pressure.high) }];
  return { duration: record.duration, channels: drawn };
}

const fingerprint = async (path: string): Promise<string | null> =>
  openLog(path)
    .then((file) => hashed(file).fingerprint())
    .catch(() => null);

/** A kept document, or null where there is none or it is damaged. */
export async function readKept(path: string): Promise<KeptDocument | null> {
  try {
    const kept: unknown = JSON.parse(await readFile(path, "utf8"));
    return typeof kept === "object" && kept !== null && "stamp" in kept && "log" in kept && "document" in kept
      ? (kept as KeptDocument)
      : null;
  } catch {
    return null;
  }
}
