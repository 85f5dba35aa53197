import { readFile } from "node:fs/promises";
import { extname } from "node:path";
import { analyse } from "../../analysis/analyse";
import { comparedVisits } from "../../analysis/comparison/before-and-after";
import { measureVisit } from "../../analysis/comparison/visit-measures";
import { writeFindings } from "../../analysis/document/findings-document";
import type { Analysis } from "../../shared/findings/analysis";
import { type Checklist, EMPTY_CHECKLIST, entryOf, withEntry } from "../../shared/findings/checklist";
import type { NamedMeasures } from "../../shared/findings/comparison";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { COMMAND_HELP } from "../../shared/wording/command-help";
import { sayWritten, USAGE } from "../../shared/wording/usage";
import { REPORT_SECTIONS, type ReportOrder } from "../report/report-input";
import { reportOf } from "../report/report-of-record";
import { readFacts } from "./files";
import { forTerminal } from "./for-terminal";
import { readUnits, UsageError } from "./options";
import { predicted } from "./predicted";
import { readLogs } from "./read-logs";
import { refusalOf } from "./refusal";
import { type ReportValues, readReportOptions } from "./report-options";
import { isVisitFile, readVisitInFile } from "./visit-in-file";
import { writeWhole } from "./write-whole";

type Visit = {
  readonly record: LogRecord;
  readonly analysis: Analysis;
  readonly checklist: Checklist;
  readonly before: NamedMeasures | null;
};

/** Writes a report. @returns 0, or 3 where a file could not be read     @throws UsageError */
export async function runReport(args: readonly string[]): Promise<number> {
  const { values, positionals } = readReportOptions(args);
  if (values.help) {
    console.log(COMMAND_HELP.report(REPORT_SECTIONS));
    return 0;
  }
  if (positionals.length === 0 || values.out === undefined) throw new UsageError(USAGE.noReport);
  try {
    const visit = await readVisit(positionals, values.site, values.limits);
    const before = values.before.length === 0 ? visit.before : measured(await readBefore(values));
    const units = readUnits(values.units) ?? unitsAsInFile(visit.record);
    const analysis = values.predict ? await predicted(visit.record, visit.analysis) : visit.analysis;
    const document = writeFindings(visit.record, analysis, units);
    await writeWhole(values.out, reportOf(visit.record, document, await orderOf(visit, before, units, values)));
    console.error(sayWritten(values.out));
    return 0;
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal === null) throw error;
    console.error(forTerminal(refusal.message));
    return 3;
  }
}

/** The earlier visit: under the facts of the later one where it has none of its own. */
const readBefore = ({ before, "before-site": ownSite, site, limits }: ReportValues): Promise<Visit> =>
  before.some(isVisitFile) ? readVisit(before, undefined, undefined) : readVisit(before, ownSite ?? site, limits);

async function orderOf(visit: Visit, before: NamedMeasures | null, units: UnitChoice, values: ReportValues): Promise<ReportOrder> {
  const { analysis } = visit;
  return {
    siteName: analysis.site.name,
    comparison: before === null ? null : comparedVisits(before, measured(visit)),
    checklist: values.done.reduce((ticked, step) => withEntry(ticked, { ...entryOf(ticked, step), done: true }), visit.checklist),
    letterhead: { lines: values.letterhead, logo: values.logo === undefined ? null : await readLogo(values.logo) },
    units,
    paper: values.paper === "Letter" ? "Letter" : "A4",
    leaveOut: REPORT_SECTIONS.filter((id) => values["leave-out"].includes(id) || (id === "notes" && !values.notes)),
    writtenOn: values.date ?? null,
  };
}

const measured = ({ record, analysis }: Visit): NamedMeasures => ({
  name: record.files.map((file) => file.name).join(", "),
  measures: measureVisit(inGauge(record, analysis.site.atmosphere.value), analysis),
});

async function readVisit(paths: readonly string[], sitePath: string | undefined, limitsPath: string | undefined): Promise<Visit> {
  if (paths.some(isVisitFile)) return visitOutOfFile(paths, sitePath, limitsPath);
  const site = await readFacts(sitePath ?? null, limitsPath ?? null);
  const record = await readLogs(paths, { answers: {}, columns: [], zone: site.zone });
  return { record, analysis: analyse(record, site), checklist: EMPTY_CHECKLIST, before: null };
}

/** A visit file brings its own facts, limits, ticks and the visit it is compared with. */
async function visitOutOfFile(paths: readonly string[], sitePath: string | undefined, limitsPath: string | undefined): Promise<Visit> {
  if (paths.length > 1) throw new UsageError(USAGE.visitAlone);
  if (sitePath !== undefined || limitsPath !== undefined) throw new UsageError(USAGE.visitHasFacts);
  const { record, site, checklist, before } = await readVisitInFile(paths[0]);
  return { record, analysis: analyse(record, site), checklist, before };
}

const PICTURES: ReadonlyMap<string, string> = new Map([
  [".png", "image/png"],
  [".jpg", "image/jpeg"],
  [".jpeg", "image/jpeg"],
  [".svg", "image/svg+xml"],
]);

async function readLogo(path: string): Promise<string> {
  const type = PICTURES.get(extname(path).toLowerCase());
  if (type === undefined) throw new UsageError(USAGE.logoKind(path));
  const bytes = await readFile(path).catch(() => {
    throw new UsageError(USAGE.logoUnread(path));
  });
  return `data:${type};base64,${bytes.toString("base64")}`;
}
