import type { AcceptanceLimit, AcceptanceLine } from "../findings/acceptance";
import type { FindingKind } from "../findings/finding";
import type { Shown } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";
import { ACCEPTANCE_NAMES, sayBounds, sayMeasured } from "./acceptance";

/** Findings over a limit in short, where no check with its numbers stands for them. */
const FINDINGS_IN_SHORT: { readonly [K in FindingKind]: string } = {
  "over-marked-pressure": "Pressure went above the tank's marked working pressure",
  cycling: "The pump starts too often",
  "short-cycles": "The pump runs too briefly",
  oscillation: "Pressure oscillates",
  drift: "Pressure drifts at steady flow",
  tracking: "Pressure is not held",
  "tank-charge": "The tank does not give what it should",
  "leak-down": "The system leaks down",
  sensor: "The sensor sticks, stands at its end, or its noise grows with flow",
  "pump-performance": "More was drawn than the pump gives, or it lost its prime",
  demand: "Demand is out of the ordinary",
};

const sayLimitOf = (limit: AcceptanceLimit, shown: Shown, units: UnitChoice): string =>
  limit.low === null && limit.high === 0 ? ROUND_WORDS.noneAllowed : ROUND_WORDS.limit(sayBounds(limit, shown, units));

/** "Most starts in any hour: 33 (limit: at most 10)". */
function sayOutside(line: AcceptanceLine, units: UnitChoice): string {
  const limit = line.limit === null ? "" : ` (${sayLimitOf(line.limit, line.shown, units)})`;
  const value = line.measured === null ? "" : `: ${sayMeasured(line, units)}`;
  return `${ACCEPTANCE_NAMES[line.id]}${value}${limit}${line.state === "not-met" ? "" : ROUND_WORDS.notCertain}`;
}

/** Why a site needs attention, a sentence a limit. @param outside checks whose value lies outside its limit */
export function sayAttention(
  error: string | null,
  others: readonly FindingKind[],
  outside: readonly AcceptanceLine[],
  units: UnitChoice,
): string {
  if (error !== null) return ROUND_WORDS.couldNotRead(error);
  const all = [...others.map((kind) => FINDINGS_IN_SHORT[kind]), ...outside.map((line) => sayOutside(line, units))];
  return all.length === 0 ? ROUND_WORDS.keepsLimits : all.map((sentence) => `${sentence}.`).join(" ");
}

/** Words of the round of all visits. */
export const ROUND_WORDS = {
  noEntry: (file: string) => `${file} is neither a visit file nor a findings document of this program.`,
  lostEntries: (file: string, lost: number, all: number) => `${file}: ${lost} of ${all} entries could not be read.`,
  intro:
    "All visits kept in this browser. To see those of a shared folder as well, open the folder: its visit files, and the findings that a bulk run of the command line wrote. Each is held against your company's limits of today, where its site states none of its own.",
  openFolder: "Open a folder of visits or findings",
  openFiles: "Open visit files or findings",
  folder: "Folder of visits or findings",
  files: "Visit files or findings",
  search: "Search",
  show: "Show",
  order: "Order",
  saveCsv: "Save as CSV",
  saveSummary: "Save a one-page summary",
  print: "Print all rows",
  table: "Sites",
  heads: ["Site", "Why it needs attention", "Against the visit before", "Likeliest cause", "Last record"],
  open: "Open",
  openSite: (site: string) => `Open ${site}`,
  /** Headings of the round as a file of rows. */
  columns: [
    "Site",
    "Last record ends",
    "Days since",
    "Visits",
    "Limits broken",
    "Acceptance",
    "Against the visit before",
    "Most starts in an hour",
    "Short cycles",
    "Likeliest cause",
    "Confidence",
    "Why it needs attention",
  ],
  couldNotRead: (why: string) => `Could not be read: ${why}`,
  keepsLimits: "No limit broken.",
  oneVisit: "one visit",
  change: (way: number, visits: number) =>
    `${way === 0 ? "as before" : way < 0 ? "better than before" : "worse than before"} (${visits} visits)`,
  startsTrend: (isRising: boolean, numbers: readonly number[]) =>
    `; most starts in an hour ${isRising ? "rising" : "falling"} over ${numbers.length} visits: ${numbers.join(", ")}`,
  noSheet: "no sheet",
  checks: (met: number, all: number, cannotTell: number) =>
    `${met} of ${all} checks met${cannotTell === 0 ? "" : `, ${cannotTell} cannot tell`}`,
  daysAgo: (days: number | null) => (days === null ? "no date" : days === 0 ? "today" : days === 1 ? "yesterday" : `${days} days ago`),
  /** The round on one page. */
  summary: {
    title: "Round of all sites",
    name: (day: string) => `Round, ${day}`,
    attention: "What needs attention first",
    none: "No site breaks a limit.",
    more: (count: number) => `And ${count} more; all stand in the round and in its CSV.`,
    heads: ["Site", "Why", "Against the visit before", "Last record"],
    sites: "Sites",
    visits: "Visits",
    keep: "Sites that keep their limits",
    break: "Sites that break a limit",
    aboveMark: "Tanks above their marked pressure",
    worse: "Worse than at the visit before",
    better: "Better than at the visit before",
    unread: "Records that could not be read",
  },
  noCause: "none named",
  limit: (bounds: string) => `limit: ${bounds}`,
  noneAllowed: "none allowed",
  notCertain: ", not certain",
  trend: (broken: readonly number[]) => `Limits broken, oldest visit first: ${broken.join(", ")}`,
  reading: (done: number, all: number) => `Reading ${done} of ${all} files.`,
  nothingRead: "No visit files and no findings documents are among these files.",
  moreProblems: (more: number) => `And ${more} more files.`,
  none: "No visits yet. Each visit that is saved stands here with its latest state against its limits.",
  count: (shown: number, all: number, urgent: number, twice: number) =>
    `${shown} of ${all} ${all === 1 ? "site" : "sites"}, ${urgent} ${urgent === 1 ? "needs" : "need"} attention.${twice === 0 ? "" : ` ${twice} visits came twice and are shown once.`}`,
  orders: {
    attention: "what needs attention first",
    worsening: "what became worse since the visit before",
    "last-visit": "latest record first",
    "longest-ago": "longest not visited",
    starts: "most starts in an hour",
    "short-cycles": "most short cycles",
    site: "name of the site",
  },
  filters: {
    all: "all sites",
    attention: "sites that break a limit",
    worse: "sites worse than at the visit before",
    "not-accepted": "sites that do not pass acceptance",
    unread: "records that could not be read",
  },
} as const;
