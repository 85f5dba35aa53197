import { parseArgs } from "node:util";
import { analyse } from "../../analysis/analyse";
import { NO_CHOICES } from "../../analysis/import/import-log";
import { type FittedSite, fitSite } from "../../analysis/model/fit";
import { whatIf } from "../../analysis/model/what-if";
import { readChange } from "../../analysis/model/what-if/changes";
import { smallestChange } from "../../analysis/model/what-if/search";
import type { Change, PredictedSpan, Proposal, WhatIfAnswer } from "../../shared/findings/what-if";
import type { Clock } from "../../shared/record/clock";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { COMMAND_HELP } from "../../shared/wording/command-help";
import { NOT_DONE, USAGE } from "../../shared/wording/usage";
import { readSiteFile } from "./files";
import { readUnits, UsageError } from "./options";
import { printWhatIf, traceCsv } from "./print-what-if";
import { readLogs } from "./read-logs";
import { refusalOf } from "./refusal";
import { writeWhole } from "./write-whole";

const OPTIONS = {
  site: { type: "string" },
  change: { type: "string", multiple: true },
  search: { type: "boolean" },
  from: { type: "string" },
  to: { type: "string" },
  trace: { type: "string" },
  units: { type: "string" },
  json: { type: "boolean" },
  help: { type: "boolean", short: "h" },
} as const;

/** What the print and the JSON hold. */
export type WhatIfReport = {
  readonly site: SiteFacts;
  readonly fitted: FittedSite;
  readonly answer: WhatIfAnswer;
  readonly proposal: Proposal | null;
};

/** Fits the model to a log and predicts what changes would do. @returns 0 or 3  @throws UsageError */
export async function runWhatIf(args: readonly string[]): Promise<number> {
  const { values, positionals } = parsed(args);
  if (values.help) {
    console.log(COMMAND_HELP["what-if"]);
    return 0;
  }
  if (positionals.length === 0) throw new UsageError(USAGE.noLogForChange);
  const changes = (values.change ?? []).map(readOneChange);
  if (changes.length === 0 && values.search !== true) throw new UsageError(USAGE.noChange);
  const units = readUnits(values.units);
  try {
    const site = values.site === undefined ? NO_SITE_FACTS : await readSiteFile(values.site);
    const record = await readLogs(positionals, { ...NO_CHOICES, zone: site.zone });
    const span = spanOf(record, values.from, values.to);
    const analysis = analyse(record, site);
    const fitted = fitSite(inGauge(record, site.atmosphere.value), analysis.segments, analysis.outcomes, site, analysis.faults);
    if (fitted === null) return refuse(NOT_DONE.nothingToFit);
    const proposal = values.search === true ? smallestChange(fitted, site, span) : null;
    const chosen = changes.length > 0 ? changes : (proposal?.nearest ?? []);
    const answer = whatIf(fitted, site, analysis.segments, analysis.outcomes, chosen, span);
    if (answer === null) return refuse(NOT_DONE.notOverStretch);
    const report = { site, fitted, answer, proposal };
    process.stdout.write(values.json === true ? json(report) : printWhatIf(report, units ?? unitsAsInFile(record)));
    if (values.trace !== undefined) await writeWhole(values.trace, traceCsv(report));
    return 0;
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal === null) throw error;
    return refuse(refusal.message);
  }
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], options: OPTIONS, allowPositionals: true });
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error));
  }
}

function readOneChange(text: string): Change {
  const change = readChange(text);
  if ("id" in change) return change;
  if (change.why === "unknown-id") throw new UsageError(USAGE.changeName(text, change.expected));
  if (change.why === "wrong-value") throw new UsageError(USAGE.changeValue(text, change.expected));
  throw new UsageError(USAGE.changeForm(text));
}

/** @throws UsageError where an end is not understood or the stretch is empty */
export function spanOf(record: LogRecord, from: string | undefined, to: string | undefined): PredictedSpan {
  const span = {
    from: from === undefined ? 0 : secondsOf(from, record.clock),
    to: to === undefined ? record.duration : secondsOf(to, record.clock),
  };
  if (!(span.from < span.to && span.to > 0 && span.from < record.duration)) throw new UsageError(USAGE.span);
  return { from: Math.max(0, span.from), to: Math.min(record.duration, span.to) };
}

function secondsOf(text: string, clock: Clock): number {
  if (/^\d+(\.\d+)?$/.test(text)) return Number(text) * 3600;
  const instant = Date.parse(/[Zz]|[+-]\d\d:\d\d$/.test(text) ? text : `${text}Z`) / 1000;
  if (Number.isNaN(instant) || clock.kind === "elapsed") throw new UsageError(USAGE.instant(text));
  return instant - clock.epoch;
}

function refuse(sentence: string): number {
  console.error(sentence);
  return 3;
}

function json({ fitted, answer, proposal }: WhatIfReport): string {
  const { changes, recorded, now, after, warnings } = answer;
  const document = {
    explained: fitted.explained,
    parameters: Object.values(fitted.parameters),
    span: now.span,
    changes,
    recorded,
    now: now.measures,
    after: after.measures,
    warnings,
    proposal,
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}
