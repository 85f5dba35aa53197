import { CAUSE_IDS, type CauseId } from "../../shared/findings/cause";
import { FINDING_KINDS, type FindingKind } from "../../shared/findings/finding";
import type { VisitFile } from "../../shared/schemas/visit-file";
import type { KeptFindings, ThinTrace } from "../../shared/schemas/visit-parts";
import { type DigestSheet, sheetOf } from "./digest-sheet";
import { numberIn, valueIn } from "./in-findings";
import { tracePath } from "./trace-path";

/** Counts the forms of a digest: one of an older form is made anew. */
export const DIGEST_FORM = 2;

/** What a round shows of one visit: small, so that thousands can be listed without reading the visits themselves. */
export type VisitDigest = {
  readonly form: number;
  /** The site's name; the names of the files where it has none. */
  readonly site: string;
  readonly title: string;
  /** Unix time of the record's last instant, ms; null for a log with elapsed time only. */
  readonly to: number | null;
  /** Why the log could not be read; null where it was. */
  readonly error: string | null;
  /** Kinds of the findings that break a limit, gravest first. */
  readonly broken: readonly FindingKind[];
  /** The acceptance sheet in numbers, so that it can be held against other limits and said in any unit; null where there is none. */
  readonly sheet: DigestSheet | null;
  /** Most starts in any rolling hour, and runs shorter than the limit. */
  readonly starts: number | null;
  readonly shortCycles: number | null;
  readonly cause: { readonly id: CauseId; readonly confidence: number } | null;
  /** The pressure as an SVG path in a box of TRACE_BOX; empty where no trace was kept. */
  readonly trace: string;
  /** The same for the same record: fingerprints of its files and its span. */
  readonly record: string;
};

/** Null where the visit holds no findings. */
export function digestOfVisit(visit: VisitFile): VisitDigest | null {
  if (visit.findings === null) return null;
  return digestOf(visit.findings, { title: visit.about?.title ?? null, log: null, trace: visit.trace });
}

/** What stands beside a findings document: the visit's title, or the log's path in a folder of many, and a small picture. */
export type BesideFindings = { readonly title: string | null; readonly log: string | null; readonly trace: ThinTrace | null };

export function digestOf(findings: KeptFindings, { title, log, trace }: BesideFindings): VisitDigest {
  const { record, error } = findings;
  const files = record.files.map((file) => file.name).join(", ");
  const first = findings.causes[0];
  return {
    form: DIGEST_FORM,
    // Logs of many sites may all have the same name: the path tells them apart.
    site: siteName(findings) ?? log ?? (files === "" ? (title ?? "") : files),
    title: title ?? files,
    to: unixTime(record.to),
    error: error?.message ?? null,
    broken: findings.findings.flatMap((f) => ("overLimit" in f && f.overLimit === true && isKind(f.kind) ? [f.kind] : [])),
    sheet: sheetOf(findings),
    starts: numberIn(findings, "cycling", "peakStartsPerHour"),
    shortCycles: numberIn(findings, "cycling", "shortCycle", "count"),
    cause: first !== undefined && isCause(first.id) ? { id: first.id, confidence: first.confidence } : null,
    trace: trace === null ? "" : tracePath(trace),
    record: [...record.files.map((file) => file.sha256 ?? file.name), record.from, record.to, error?.message ?? ""].join(" "),
  };
}

const isCause = (id: string): id is CauseId => CAUSE_IDS.some((known) => known === id);

const isKind = (kind: string): kind is FindingKind => FINDING_KINDS.some((known) => known === kind);

/** The site's name among the facts of the document. */
function siteName(findings: KeptFindings): string | null {
  const value = valueIn(findings, "site", "name", "value");
  return typeof value === "string" && value.trim() !== "" ? value.trim() : null;
}

/** Unix time of an instant that a calendar knows, ms; null for elapsed time and for what is no instant. */
function unixTime(instant: string | number | null): number | null {
  const at = typeof instant === "string" ? Date.parse(instant) : Number.NaN;
  return Number.isNaN(at) ? null : at;
}
