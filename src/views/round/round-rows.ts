import type { SiteFacts } from "../../../shared/site/site-facts";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { sayCause } from "../../../shared/wording/cause";
import { ROUND_WORDS, sayAttention } from "../../../shared/wording/round";
import type { VisitDigest } from "../../storage/visit-digest";
import { isOutside, type Judged, judgeDigest } from "./judge-digest";
import type { RoundEntry } from "./round-entry";

/** A site in the round: its latest visit, what it broke, and how that went over its visits. */
export type RoundRow = {
  readonly site: string;
  readonly latest: RoundEntry;
  readonly visits: number;
  /** The latest visit against the limits of today, and in words why it needs attention. */
  readonly judged: Judged;
  readonly why: string;
  /** Higher needs attention sooner: marked pressure passed, then limits broken, then a record that could not be read. */
  readonly weight: number;
  /** Limits broken now less those broken before; null with one visit. */
  readonly change: number | null;
  /** Over the visits, oldest first: limits broken, and most starts in an hour. At most the last `MOST_SHOWN`. */
  readonly trend: { readonly broken: readonly number[]; readonly starts: readonly (number | null)[] };
};

export const ROUND_ORDERS = ["attention", "worsening", "last-visit", "longest-ago", "starts", "short-cycles", "site"] as const;
export type RoundOrder = (typeof ROUND_ORDERS)[number];

const MOST_SHOWN = 8;

/** One row a site, from all its visits. @param today facts of no site under the company's limits of today */
export function roundRows(entries: readonly RoundEntry[], today: SiteFacts, units: UnitChoice): readonly RoundRow[] {
  const bySite = new Map<string, RoundEntry[]>();
  for (const entry of entries) {
    const known = bySite.get(entry.digest.site);
    if (known === undefined) bySite.set(entry.digest.site, [entry]);
    else known.push(entry);
  }
  return [...bySite].map(([site, visits]) =>
    rowOf(
      site,
      visits.toSorted((a, b) => (b.digest.to ?? 0) - (a.digest.to ?? 0)),
      today,
      units,
    ),
  );
}

function rowOf(site: string, visits: readonly RoundEntry[], today: SiteFacts, units: UnitChoice): RoundRow {
  const shown = visits.slice(0, MOST_SHOWN).map(({ digest }) => ({ digest, judged: judgeDigest(digest, today) }));
  const [latest, before] = shown;
  const oldestFirst = shown.toReversed();
  return {
    site,
    latest: visits[0],
    judged: latest.judged,
    why: sayAttention(latest.digest.error, latest.judged.others, latest.judged.checks.filter(isOutside), units),
    visits: visits.length,
    weight: weightOf(latest.digest, latest.judged),
    change: before === undefined ? null : brokenLimits(latest.judged) - brokenLimits(before.judged),
    trend: { broken: oldestFirst.map(({ judged }) => brokenLimits(judged)), starts: oldestFirst.map(({ digest }) => digest.starts) },
  };
}

const brokenLimits = ({ checks, others }: Judged): number => checks.filter(isOutside).length + others.length;

const MARKED_PRESSURE = 1000;
function weightOf({ error }: VisitDigest, judged: Judged): number {
  if (error !== null) return 0.5;
  return brokenLimits(judged) + (isOverMarked({ judged }) ? MARKED_PRESSURE : 0);
}

/** Whether pressure went above what the tank is marked for. */
export const isOverMarked = ({ judged: { checks, others } }: Pick<RoundRow, "judged">): boolean =>
  others.includes("over-marked-pressure") || checks.some((check) => check.id === "marked-pressure" && isOutside(check));

const DESCENDING = (a: number | null, b: number | null) => (b ?? Number.NEGATIVE_INFINITY) - (a ?? Number.NEGATIVE_INFINITY);
const COMPARE: Readonly<Record<RoundOrder, (a: RoundRow, b: RoundRow) => number>> = {
  attention: (a, b) => b.weight - a.weight || DESCENDING(a.change, b.change),
  worsening: (a, b) => DESCENDING(a.change, b.change) || b.weight - a.weight,
  site: () => 0,
  "last-visit": (a, b) => DESCENDING(a.latest.digest.to, b.latest.digest.to),
  "longest-ago": (a, b) => (a.latest.digest.to ?? Number.POSITIVE_INFINITY) - (b.latest.digest.to ?? Number.POSITIVE_INFINITY),
  starts: (a, b) => DESCENDING(a.latest.digest.starts, b.latest.digest.starts),
  "short-cycles": (a, b) => DESCENDING(a.latest.digest.shortCycles, b.latest.digest.shortCycles),
};

export const causeName = ({ latest }: RoundRow): string | null =>
  latest.digest.cause === null ? null : sayCause(latest.digest.cause.id).name;

export const ROUND_FILTERS = ["all", "attention", "worse", "not-accepted", "unread"] as const;
export type RoundFilter = (typeof ROUND_FILTERS)[number];
const KEEPS: Readonly<Record<RoundFilter, (row: RoundRow) => boolean>> = {
  all: () => true,
  attention: ({ weight }) => weight > 0,
  worse: ({ change }) => (change ?? 0) > 0,
  "not-accepted": ({ judged }) => judged.checks.some(({ state }) => state === "not-met"),
  unread: ({ latest }) => latest.digest.error !== null,
};

/** Rows that hold every word of the search (site, files, findings, checks, cause), in an order; equal ones by the site's name. */
export function arrange(rows: readonly RoundRow[], order: RoundOrder, search: string, filter: RoundFilter): readonly RoundRow[] {
  const words = search
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  const text = (row: RoundRow) => `${row.site} ${row.latest.digest.title} ${row.why} ${causeName(row) ?? ""}`.toLowerCase();
  const wanted = (row: RoundRow) => KEEPS[filter](row) && (words.length === 0 || words.every((word) => text(row).includes(word)));
  return rows.filter(wanted).toSorted((a, b) => COMPARE[order](a, b) || (a.site < b.site ? -1 : a.site > b.site ? 1 : 0));
}

/** Against the visit before, and whether starts have gone one way over the last three visits or more. */
export function sayChange({ change, visits, trend }: RoundRow): string {
  return change === null ? ROUND_WORDS.oneVisit : `${ROUND_WORDS.change(change, visits)}${sayStarts(trend.starts)}`;
}

const LEAST_FOR_A_TREND = 3;

function sayStarts(starts: readonly (number | null)[]): string {
  const way = (sign: 1 | -1) => {
    let steps = 0;
    for (let i = starts.length - 1; i > 0; i--) {
      const [a, b] = [starts[i - 1], starts[i]];
      if (a === null || b === null || sign * (b - a) <= 0) break;
      steps++;
    }
    return steps + 1;
  };
  const [up, down] = [way(1), way(-1)];
  const most = Math.max(up, down);
  if (most < LEAST_FOR_A_TREND) return "";
  const numbers = starts.slice(-most).map((n) => n ?? 0);
  return ROUND_WORDS.startsTrend(up > down, numbers);
}

/** "11 of 14 checks met, 2 cannot tell". */
export function sayAcceptance({ judged: { checks } }: RoundRow): string {
  if (checks.length === 0) return ROUND_WORDS.noSheet;
  const count = (state: string) => checks.filter((check) => check.state === state).length;
  return ROUND_WORDS.checks(count("met"), checks.length, count("cannot-tell"));
}

const DAY = 86_400_000;
/** Days from the end of the record to now; null for a log with elapsed time only. */
export const daysSince = ({ latest: { digest } }: RoundRow, now: number): number | null =>
  digest.to === null ? null : Math.max(0, Math.floor((now - digest.to) / DAY));
