import { parseArgs } from "node:util";
import { ADVICE_IDS } from "../../shared/findings/advice";
import { REPORT_SECTIONS, type ReportSectionId } from "../report/report-input";
import { UsageError } from "./options";

export const REPORT_HELP = `report LOG.csv... --out REPORT.html [options]     write a report as one HTML file
report VISIT.evenhead.json --out REPORT.html [options]     the same of a visit that the page saved with its log
  --site SITE.json         site facts
  --before LOG.csv         an earlier log of the same site, to compare with (may be repeated for its parts)
  --before-site SITE.json  site facts of that visit, where they differ
  --limits LIMITS.json     limits of the company, where the site gives none
  --predict                fit a model to the log and say what each change would do here; takes some seconds more
  --done STEP              a step of the advice that was done; may be repeated
  --notes                  with what was ticked and noted on site
  --letterhead TEXT        a line of your own; may be repeated
  --logo PICTURE           PNG, JPEG or SVG
  --leave-out SECTION      ${REPORT_SECTIONS.join(", ")}; may be repeated
  --paper A4|Letter        default A4
  --units us|metric        default: as in the file
  --date TEXT              date of the report as it should read`;

const OPTIONS = {
  site: { type: "string" },
  limits: { type: "string" },
  out: { type: "string" },
  before: { type: "string", multiple: true, default: [] as string[] },
  "before-site": { type: "string" },
  predict: { type: "boolean", default: false },
  done: { type: "string", multiple: true, default: [] as string[] },
  notes: { type: "boolean", default: false },
  letterhead: { type: "string", multiple: true, default: [] as string[] },
  logo: { type: "string" },
  "leave-out": { type: "string", multiple: true, default: [] as string[] },
  paper: { type: "string", default: "A4" },
  units: { type: "string" },
  date: { type: "string" },
  help: { type: "boolean", short: "h", default: false },
} as const;

/** @throws UsageError */
export function readReportOptions(args: readonly string[]) {
  try {
    const read = parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true });
    const unknown = read.values["leave-out"].find((id) => !REPORT_SECTIONS.includes(id as ReportSectionId));
    if (unknown !== undefined)
      throw new UsageError(`--leave-out ${unknown}: there is no such section. Sections: ${REPORT_SECTIONS.join(", ")}.`);
    const noStep = read.values.done.find((id) => !ADVICE_IDS.some((known) => known === id));
    if (noStep !== undefined) throw new UsageError(`--done ${noStep}: there is no such step. Steps: ${ADVICE_IDS.join(", ")}.`);
    if (!["A4", "Letter"].includes(read.values.paper)) throw new UsageError(`--paper is A4 or Letter, not ${read.values.paper}.`);
    return read;
  } catch (error) {
    throw error instanceof UsageError ? error : new UsageError(error instanceof Error ? error.message : String(error));
  }
}

export type ReportValues = ReturnType<typeof readReportOptions>["values"];
