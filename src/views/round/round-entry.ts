import * as v from "valibot";
import { readVisitFile } from "../../../shared/schemas/visit-file";
import { findingsSchema, type KeptFindings, type ThinTrace } from "../../../shared/schemas/visit-parts";

/** One visit in the round: its findings, and a small trace where one was kept. */
export type RoundEntry = {
  /** Kept visits by their id, opened ones by file and line. */
  readonly key: string;
  readonly site: string;
  readonly title: string;
  /** Unix time of the record's last instant, ms; null for a log with elapsed time only. */
  readonly to: number | null;
  readonly findings: KeptFindings;
  readonly trace: ThinTrace | null;
  readonly isKept: boolean;
};

export type OpenedFile = { readonly name: string; readonly entries: readonly RoundEntry[]; readonly problem: string | null };

/**
 * Whatever stands in one file: a visit file, a findings document, the lines of a bulk run, or one of its results.
 * A line that cannot be read costs only itself and is counted in the problem.
 */
export function readRoundFile(name: string, text: string): OpenedFile {
  if (text.includes('"evenhead-visit"')) return opened(name, [fromVisitText(name, text, false)]);
  if (/\.jsonl$/i.test(name)) {
    const lines = text.split("\n").filter((line) => line.trim() !== "");
    return opened(
      name,
      lines.map((line, i) => fromFindings(`${name}:${i + 1}`, parsed(line))),
    );
  }
  return opened(name, [fromFindings(name, parsed(text))]);
}

function opened(name: string, read: readonly (RoundEntry | null)[]): OpenedFile {
  const entries = read.filter((entry) => entry !== null);
  const lost = read.length - entries.length;
  if (entries.length === 0) return { name, entries, problem: `${name} is neither a visit file nor a findings document of this program.` };
  return { name, entries, problem: lost === 0 ? null : `${name}: ${lost} of ${read.length} entries could not be read.` };
}

/** A kept or saved visit; null where its findings were not saved or are damaged. */
export function fromVisitText(key: string, text: string, isKept: boolean): RoundEntry | null {
  const { visit } = readVisitFile(text);
  if (visit === null || visit.findings === null) return null;
  const entry = entryOf(visit.about?.id ?? key, visit.findings, isKept);
  return { ...entry, title: visit.about?.title ?? entry.title, trace: visit.trace };
}

function fromFindings(key: string, value: unknown): RoundEntry | null {
  const document = typeof value === "object" && value !== null && "document" in value ? value.document : value;
  const checked = v.safeParse(findingsSchema, document);
  return checked.success ? entryOf(key, checked.output, false) : null;
}

function entryOf(key: string, findings: KeptFindings, isKept: boolean): RoundEntry {
  const names = findings.record.files.map((file) => file.name).join(", ");
  const { to } = findings.record;
  return {
    key,
    site: siteName(findings) ?? (names === "" ? key : names),
    title: names,
    to: typeof to === "string" ? Date.parse(to) : null,
    findings,
    trace: null,
    isKept,
  };
}

/** The site's name among the facts of the document. */
function siteName(findings: KeptFindings): string | null {
  const site = "site" in findings ? findings.site : null;
  const name = typeof site === "object" && site !== null && "name" in site ? site.name : null;
  const value = typeof name === "object" && name !== null && "value" in name ? name.value : null;
  return typeof value === "string" && value.trim() !== "" ? value.trim() : null;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
