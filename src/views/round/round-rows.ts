import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import { sayCause } from "../../../shared/wording/cause";
import type { RoundEntry } from "./round-entry";

/** A site in the round: its latest visit, what it broke, and how that compares with the visit before. */
export type RoundRow = {
  readonly site: string;
  readonly latest: RoundEntry;
  readonly visits: number;
  /** Findings of the latest visit that break a limit, in their own words, gravest first. */
  readonly broken: readonly string[];
  /** Higher needs attention sooner: marked pressure passed, then limits broken, then a record that could not be read. */
  readonly weight: number;
  /** Limits broken now less those broken before; null with one visit. */
  readonly change: number | null;
  readonly starts: number | null;
  readonly shortCycles: number | null;
  readonly cause: { readonly name: string; readonly confidence: number } | null;
};

export type RoundOrder = "attention" | "site" | "last-visit" | "starts" | "short-cycles";

/** One row a site, from all its visits. */
export function roundRows(entries: readonly RoundEntry[]): readonly RoundRow[] {
  const bySite = new Map<string, RoundEntry[]>();
  for (const entry of entries) {
    const known = bySite.get(entry.site);
    if (known === undefined) bySite.set(entry.site, [entry]);
    else known.push(entry);
  }
  return [...bySite].map(([site, visits]) =>
    rowOf(
      site,
      visits.toSorted((a, b) => (b.to ?? 0) - (a.to ?? 0)),
    ),
  );
}

function rowOf(site: string, visits: readonly RoundEntry[]): RoundRow {
  const [latest, before] = visits;
  const broken = brokenIn(latest);
  const first = latest.findings.causes[0];
  return {
    site,
    latest,
    visits: visits.length,
    broken: broken.map(({ title }) => title),
    weight: weightOf(latest, broken),
    change: before === undefined ? null : broken.length - brokenIn(before).length,
    starts: numberIn(latest, "cycling", "peakStartsPerHour"),
    shortCycles: numberIn(latest, "cycling", "shortCycle", "count"),
    cause: first !== undefined && isCause(first.id) ? { name: sayCause(first.id).name, confidence: first.confidence } : null,
  };
}

const isCause = (id: string): id is CauseId => CAUSE_IDS.some((known) => known === id);

const brokenIn = ({ findings }: RoundEntry) => findings.findings.filter((f) => "overLimit" in f && f.overLimit === true);

const MARKED_PRESSURE = 1000;
function weightOf({ findings }: RoundEntry, broken: readonly { readonly kind: string }[]): number {
  if (findings.error !== null) return 0.5;
  return broken.length + (broken.some(({ kind }) => kind === "over-marked-pressure") ? MARKED_PRESSURE : 0);
}

/** A number somewhere in the document; null where it is not there or not known. */
function numberIn({ findings }: RoundEntry, ...path: readonly string[]): number | null {
  let at: unknown = findings;
  for (const name of path) at = typeof at === "object" && at !== null ? new Map(Object.entries(at)).get(name) : null;
  return typeof at === "number" ? at : null;
}

const DESCENDING = (a: number | null, b: number | null) => (b ?? Number.NEGATIVE_INFINITY) - (a ?? Number.NEGATIVE_INFINITY);
const COMPARE: Readonly<Record<RoundOrder, (a: RoundRow, b: RoundRow) => number>> = {
  attention: (a, b) => b.weight - a.weight || DESCENDING(a.change, b.change),
  site: () => 0,
  "last-visit": (a, b) => DESCENDING(a.latest.to, b.latest.to),
  starts: (a, b) => DESCENDING(a.starts, b.starts),
  "short-cycles": (a, b) => DESCENDING(a.shortCycles, b.shortCycles),
};

/** Rows that hold every word of the search (site, files, findings, cause), in an order; equal ones by the site's name. */
export function arrange(rows: readonly RoundRow[], order: RoundOrder, search: string, onlyBroken: boolean): readonly RoundRow[] {
  const words = search
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  const text = (row: RoundRow) => [row.site, row.latest.title, ...row.broken, row.cause?.name ?? ""].join(" ").toLowerCase();
  const wanted = (row: RoundRow) => (!onlyBroken || row.weight > 0) && words.every((word) => text(row).includes(word));
  return rows.filter(wanted).toSorted((a, b) => COMPARE[order](a, b) || (a.site < b.site ? -1 : a.site > b.site ? 1 : 0));
}

/** Why a site needs attention, in words. */
export function sayAttention({ latest, broken }: RoundRow): string {
  if (latest.findings.error !== null) return `Could not be read: ${latest.findings.error.message}`;
  if (broken.length === 0) return "No limit broken.";
  return broken.length <= 2 ? broken.join(". ") : `${broken[0]}. ${broken[1]}. And ${broken.length - 2} more.`;
}

export function sayChange({ change, visits }: RoundRow): string {
  if (change === null) return "one visit";
  const words = change === 0 ? "as before" : change < 0 ? "better than before" : "worse than before";
  return `${words} (${visits} visits)`;
}

const DAY = 86_400_000;
/** Days from the end of the record to now; null for a log with elapsed time only. */
export const daysSince = ({ latest }: RoundRow, now: number): number | null =>
  latest.to === null ? null : Math.max(0, Math.floor((now - latest.to) / DAY));
