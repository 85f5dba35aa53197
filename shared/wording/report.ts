import { formatOwn } from "../units/format-quantity";

/** Words of the report itself, section by section; the sheet on which it is ordered has its own. */
export const IN_REPORT = {
  title: (site: string | null) => `Water system record${site === null ? "" : `, ${site}`}`,
  written: (day: string) => `. Written ${day}`,
  notKnown: "not known",
  none: "none",
  customer: {
    title: "In plain words",
    found: "What was found",
    why: "Why",
    mostLikely: (cause: string) => `Most likely ${cause}.`,
    done: "What was done",
    proposed: "What is proposed",
    expect: "What to expect",
    note: "Please note",
    figures: "In figures",
    figureHeads: ["What", "Recorded", "Limit", "Kept?"],
    states: { met: "Kept", "not-met": "Not kept", "cannot-tell": "Not known" },
    didItHelp: "Did it help?",
    helpHeads: ["What", "Before", "After"],
  },
  trace: {
    title: "The record",
    alternative: (headings: readonly string[]) =>
      `The recorded channels (${headings.join(", ")}) over the whole record, with the stretches of the findings shaded`,
    howDrawn: (times: string) =>
      `Least to greatest value of each column of the picture; shaded: where a finding breaks a limit. Dashed: set pressure, with its band, and the tank's marked pressure where the record comes near it. Times: ${times}.`,
    setPressure: (pressure: string) => `dashed: set pressure ${pressure}`,
    marked: (pressure: string) => `marked on the tank ${pressure}`,
  },
  findings: {
    title: "Findings",
    over: "Over the limit: ",
    howComputed: (method: string, basis: string, wrongIf: string) =>
      `How computed: ${method} From: ${basis}. What would make it wrong: ${wrongIf}`,
    sharper: (by: string) => ` It would be sharper with ${by}.`,
    closeUp: (when: string, title: string) => `The stretch that shows it most, ${when}: ${title}`,
  },
  acceptance: { title: "Acceptance", heads: ["Check", "Limit", "Measured", "Verdict"] },
  comparison: {
    title: "Before and after",
    which: (before: string, after: string) => ` Before: ${before}. After: ${after}.`,
    heads: ["Measure", "Before", "After", "Difference", "Limit", "Verdict"],
    days: "All days laid over one another",
    cycles: "All cycles laid over one another",
    ofDays: (before: number, after: number) => `Pressure over the time of day, ${before} days before, ${after} after`,
    ofCycles: (before: number, after: number) => `Pressure from the pump's start on, ${before} cycles before, ${after} after`,
  },
  causes: {
    title: "Causes, likeliest first",
    for: "For:",
    against: "Against:",
    moreEvidence: (more: number) => `and ${more} more, weaker ones`,
    surer: (check: string) => `To be surer: ${check}`,
    note: 'Confidences over all causes, "healthy" among them, sum to 100\u202f%; they are calibrated on simulated sites.',
  },
  nextVisit: {
    title: "Next visit",
    amount: "Amount:",
    because: (why: string) => `Because ${why}`,
    expected: (what: string) => `Expected: ${what}`,
    ifWrong: (what: string) => `If this turns out to be wrong: ${what}`,
    source: (sources: readonly string[]) => `Source: ${sources.join("; ")}.`,
  },
  notes: { title: "Noted on site", done: "Done", notDone: "Not done" },
  cannotShow: { title: "What this log cannot show", failed: "Where this program failed" },
  siteFacts: {
    title: "Site facts",
    heads: ["Fact", "As written", "Origin"],
    origins: { given: "given", company: "company limit", assumed: "assumed", log: "read from the log" },
    atmosphere: "Air pressure at the site",
  },
  record: {
    title: "The record's fingerprint",
    heads: ["File", "Bytes", "SHA-256"],
    noHash: "not worked out",
    rows: (accepted: number, rejected: number, duplicate: number, reordered: number, locale: string | null) => {
      const [a, b, c, d] = [accepted, rejected, duplicate, reordered].map((count) => formatOwn(count, locale));
      return `${a} rows accepted, ${b} rejected, ${c} duplicate, ${d} put in order.`;
    },
    assumed: "Assumed while reading",
    assumedIs: (question: string, answer: string) => `${question} Assumed: ${answer}.`,
    noticed: "Noticed while reading",
    madeBy: (version: string) => `Made by Evenhead ${version}. The same files, site facts and version give the same findings.`,
  },
} as const;

/** Words in the file of events. */
export const IN_EVENTS = {
  headings: "event from to seconds channel value low high unit note".split(" "),
  run: "run",
  shortRun: "short run",
  cut: "cut by a gap or an end of the record",
  oscillation: "oscillation",
  crestToTrough: "Pa from crest to trough",
  wave: (period: number | null, drivenBy: string) => `period ${period ?? "not known"} s, driven by ${drivenBy}`,
  steadyFlow: "steady flow",
  ofDrift: "Pa of drift",
  over: "over the limit",
  logFault: (kind: string) => `log fault: ${kind}`,
} as const;
