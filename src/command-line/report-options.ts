import { parseArgs } from "node:util";
import { ADVICE_IDS } from "../../shared/findings/advice";
import { USAGE } from "../../shared/wording/usage";
import { REPORT_SECTIONS, type ReportSectionId } from "../report/report-input";
import { UsageError } from "./options";

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
    if (unknown !== undefined) throw new UsageError(USAGE.section(unknown, REPORT_SECTIONS));
    const noStep = read.values.done.find((id) => !ADVICE_IDS.some((known) => known === id));
    if (noStep !== undefined) throw new UsageError(USAGE.step(noStep, ADVICE_IDS));
    if (!["A4", "Letter"].includes(read.values.paper)) throw new UsageError(USAGE.paper(read.values.paper));
    return read;
  } catch (error) {
    throw error instanceof UsageError ? error : new UsageError(error instanceof Error ? error.message : String(error));
  }
}

export type ReportValues = ReturnType<typeof readReportOptions>["values"];
