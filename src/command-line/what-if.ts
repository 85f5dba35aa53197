import { parseArgs } from "node:util";
import { analyse } from "../../analysis/analyse";
import { NO_CHOICES } from "../../analysis/import/import-log";
import { type FittedSite, fitSite } from "../../analysis/model/fit";
import { whatIf } from "../../analysis/model/what-if";
import { readChange } from "../../analysis/model/what-if/changes";
import { smallestChange } from "../../analysis/model/what-if/search";
import { CHANGE_KINDS, type Change, type PredictedSpan, type Proposal, type WhatIfAnswer } from "../../shared/findings/what-if";
import type { Clock } from "../../shared/record/clock";
import { inGauge } from "../../shared/record/in-gauge";
import type { LogRecord } from "../../shared/record/log-record";
import { unitsAsInFile } from "../../shared/record/units-as-in-file";
import { NO_SITE_FACTS } from "../../shared/site/read-site-facts";
import type { SiteFacts } from "../../shared/site/site-facts";
import { readSiteFile } from "./files";
import { readUnits, UsageError } from "./options";
import { printWhatIf, traceCsv } from "./print-what-if";
import { readLogs } from "./read-logs";
import { refusalOf } from "./refusal";
import { writeWhole } from "./write-whole";

const HELP = `what-if FILE... [options]     predict what a change would do at this site
  --site SITE.json       site facts
  --change "NAME=VALUE"  a change; may be given again. Names: ${Object.keys(CHANGE_KINDS).join(", ")}
                         e.g. "precharge=38 psi", "tank-volume=40 gal", "gain=0.5" (times what it is), "leak=0"
  --search               propose the smallest change that meets the acceptance limits
  --from, --to           stretch of the record: an instant (2026-03-02T19:00) or hours from its start (19.5)
  --trace OUT.csv        also write recorded, modelled and predicted pressure, Pa
  --units us|metric      units of the print (default: as in the file)
  --json                 print JSON, SI
Exit code: 0 predicted, 2 wrong usage, 3 a file could not be read as a log, or it shows too little to model.`;

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
    console.log(HELP);
    return 0;
  }
  if (positionals.length === 0) throw new UsageError('Name a log: what-if LOG.csv --site SITE.json --change "precharge=38 psi"');
  const changes = (values.change ?? []).map(readOneChange);
  if (changes.length === 0 && values.search !== true)
    throw new UsageError('Say what to change (--change "precharge=38 psi"), or --search.');
  const units = readUnits(values.units);
  try {
    const site = values.site === undefined ? NO_SITE_FACTS : await readSiteFile(values.site);
    const record = await readLogs(positionals, { ...NO_CHOICES, zone: site.zone });
    const span = spanOf(record, values.from, values.to);
    const analysis = analyse(record, site);
    const fitted = fitSite(inGauge(record, site.atmosphere.value), analysis.segments, analysis.outcomes, site, analysis.faults);
    if (fitted === null)
      return refuse("This log has no pressure, or does not show when the pump ran: there is nothing to fit the model to.");
    const proposal = values.search === true ? smallestChange(fitted, site, span) : null;
    const chosen = changes.length > 0 ? changes : (proposal?.nearest ?? []);
    const answer = whatIf(fitted, site, analysis.segments, analysis.outcomes, chosen, span);
    if (answer === null)
      return refuse(
        "The model cannot be run over this stretch: what was drawn is not known there. Log the flow, or the speed of the pump.",
      );
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

/** How a value is written, by the kind of quantity. */
const VALUES: Readonly<Record<string, string>> = {
  gaugePressure: 'a pressure above the air, as "38 psi"',
  volume: 'a volume, as "40 gal"',
  length: 'a length, as "6 ft"',
  time: 'a time, as "60 s"',
  flow: 'a flow, as "0.2 gpm", or 0',
  ratio: 'a ratio to what it is now, as "0.5" or "50 %"',
};

function readOneChange(text: string): Change {
  const change = readChange(text);
  if ("id" in change) return change;
  if (change.why === "unknown-id") throw new UsageError(`--change "${text}": the names are ${change.expected}.`);
  if (change.why === "wrong-value")
    throw new UsageError(`--change "${text}": its value must be ${VALUES[change.expected] ?? "a number with its unit"}.`);
  throw new UsageError(`--change "${text}" must read NAME=VALUE, for example "precharge=38 psi".`);
}

/** @throws UsageError where an end is not understood or the stretch is empty */
export function spanOf(record: LogRecord, from: string | undefined, to: string | undefined): PredictedSpan {
  const span = {
    from: from === undefined ? 0 : secondsOf(from, record.clock),
    to: to === undefined ? record.duration : secondsOf(to, record.clock),
  };
  if (!(span.from < span.to && span.to > 0 && span.from < record.duration))
    throw new UsageError("--from must lie before --to, and both within the record.");
  return { from: Math.max(0, span.from), to: Math.min(record.duration, span.to) };
}

function secondsOf(text: string, clock: Clock): number {
  if (/^\d+(\.\d+)?$/.test(text)) return Number(text) * 3600;
  const instant = Date.parse(/[Zz]|[+-]\d\d:\d\d$/.test(text) ? text : `${text}Z`) / 1000;
  if (Number.isNaN(instant) || clock.kind === "elapsed")
    throw new UsageError(`"${text}" is neither hours from the start nor an instant of this record.`);
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
