import * as v from "valibot";
import { CAUSE_IDS, type CauseId } from "../../shared/findings/cause";
import type { VisitFile } from "../../shared/schemas/visit-file";
import type { KeptFindings, ThinTrace } from "../../shared/schemas/visit-parts";
import { tracePath } from "./trace-path";

/** What a round shows of one visit: small, so that thousands can be listed without reading the visits themselves. */
export type VisitDigest = {
  /** The site's name; the names of the files where it has none. */
  readonly site: string;
  readonly title: string;
  /** Unix time of the record's last instant, ms; null for a log with elapsed time only. */
  readonly to: number | null;
  /** Why the log could not be read; null where it was. */
  readonly error: string | null;
  /** Findings that break a limit, in their own words, gravest first. */
  readonly broken: readonly { readonly kind: string; readonly title: string }[];
  /** The acceptance sheet: checks met, those that nobody can tell, and the names of those not met; null where there is none. */
  readonly acceptance: { readonly met: number; readonly cannotTell: number; readonly notMet: readonly string[] } | null;
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
  return digestOf(visit.findings, visit.about?.title ?? null, visit.trace);
}

export function digestOf(findings: KeptFindings, title: string | null, trace: ThinTrace | null): VisitDigest {
  const { record, error } = findings;
  const files = record.files.map((file) => file.name).join(", ");
  const first = findings.causes[0];
  return {
    site: siteName(findings) ?? (files === "" ? (title ?? "") : files),
    title: title ?? files,
    to: unixTime(record.to),
    error: error?.message ?? null,
    broken: findings.findings.flatMap((f) => ("overLimit" in f && f.overLimit === true ? [{ kind: f.kind, title: f.title }] : [])),
    acceptance: acceptanceOf(findings),
    starts: numberIn(findings, "cycling", "peakStartsPerHour"),
    shortCycles: numberIn(findings, "cycling", "shortCycle", "count"),
    cause: first !== undefined && isCause(first.id) ? { id: first.id, confidence: first.confidence } : null,
    trace: trace === null ? "" : tracePath(trace),
    record: [...record.files.map((file) => file.sha256 ?? file.name), record.from, record.to, error?.message ?? ""].join(" "),
  };
}

const isCause = (id: string): id is CauseId => CAUSE_IDS.some((known) => known === id);

const sheetSchema = v.array(v.looseObject({ name: v.string(), state: v.picklist(["met", "not-met", "cannot-tell"]) }));

function acceptanceOf(findings: KeptFindings): VisitDigest["acceptance"] {
  const { output, success } = v.safeParse(sheetSchema, "acceptance" in findings ? findings.acceptance : null);
  if (!success || output.length === 0) return null;
  const count = (state: string) => output.filter((line) => line.state === state).length;
  const notMet = output.filter((line) => line.state === "not-met").map(({ name }) => name);
  return { met: count("met"), cannotTell: count("cannot-tell"), notMet };
}

/** The site's name among the facts of the document. */
function siteName(findings: KeptFindings): string | null {
  const value = valueIn(findings, "site", "name", "value");
  return typeof value === "string" && value.trim() !== "" ? value.trim() : null;
}

/** A number somewhere in the document; null where it is not there or not known. */
function numberIn(findings: KeptFindings, ...path: readonly string[]): number | null {
  const value = valueIn(findings, ...path);
  return typeof value === "number" ? value : null;
}

function valueIn(findings: KeptFindings, ...path: readonly string[]): unknown {
  let at: unknown = findings;
  for (const name of path) at = typeof at === "object" && at !== null ? new Map(Object.entries(at)).get(name) : null;
  return at;
}

/** Unix time of an instant that a calendar knows, ms; null for elapsed time and for what is no instant. */
function unixTime(instant: string | number | null): number | null {
  const at = typeof instant === "string" ? Date.parse(instant) : Number.NaN;
  return Number.isNaN(at) ? null : at;
}
