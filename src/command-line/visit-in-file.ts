import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { NO_CHOICES } from "../../analysis/import/import-choices";
import { type Checklist, EMPTY_CHECKLIST } from "../../shared/findings/checklist";
import type { NamedMeasures } from "../../shared/findings/comparison";
import { VisitFileError } from "../../shared/problems/visit-file-problem";
import type { LogRecord } from "../../shared/record/log-record";
import { readVisitFile, VISIT_FILE_END } from "../../shared/schemas/visit-file";
import type { SiteFacts } from "../../shared/site/site-facts";
import { unpackLog } from "../storage/log-packing";
import { toSiteEntry } from "../views/site-facts/entries";
import { logFile } from "../worker/log-file";
import { hashed, whyNot } from "./files";
import { readFiles } from "./read-logs";

/** A visit that the page saved: its record, read again as it was read then, with its facts, ticks and the visit it is compared with. */
export type VisitInFile = {
  readonly record: LogRecord;
  readonly site: SiteFacts;
  readonly checklist: Checklist;
  readonly before: NamedMeasures | null;
};

export const isVisitFile = (path: string): boolean => path.endsWith(VISIT_FILE_END);

/** @throws VisitFileError where it cannot be read or holds no sound log; ImportError where its log cannot be read */
export async function readVisitInFile(path: string): Promise<VisitInFile> {
  const name = basename(path);
  const text = await readFile(path, "utf8").catch((error: unknown) => {
    throw new VisitFileError({ id: "cannot-open", why: whyNot(error) }, name);
  });
  const { visit, problem } = readVisitFile(text);
  if (visit === null) throw new VisitFileError(problem, name);
  if (visit.log === null) throw new VisitFileError({ id: "without-log" }, name);
  const unpacked = await unpackLog(visit.log).catch(() => {
    throw new VisitFileError({ id: "log-damaged" }, name);
  });
  const { facts: site } = toSiteEntry(visit.site ?? {});
  const choices = visit.choices ?? NO_CHOICES;
  const record = await readFiles(
    unpacked.map((file) => hashed(logFile(file))),
    { ...choices, zone: choices.zone ?? site.zone },
  );
  return { record, site, checklist: visit.checklist ?? EMPTY_CHECKLIST, before: visit.before };
}
