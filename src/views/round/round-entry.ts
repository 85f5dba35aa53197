import * as v from "valibot";
import { readVisitFile } from "../../../shared/schemas/visit-file";
import { findingsSchema, traceSchema } from "../../../shared/schemas/visit-parts";
import { ROUND_WORDS } from "../../../shared/wording/round";
import type { StoredVisit } from "../../storage/database";
import { DIGEST_FORM, digestOf, digestOfVisit, type VisitDigest } from "../../storage/visit-digest";

/** One visit in the round: kept in this browser, or out of a file that was opened. */
export type RoundEntry = {
  /** Kept visits by their id, opened ones by file and line. */
  readonly key: string;
  readonly digest: VisitDigest;
  readonly isKept: boolean;
  /** A visit file, which can be put on the page; null for findings alone and for kept visits. */
  readonly file: File | null;
};

export type OpenedFile = { readonly name: string; readonly entries: readonly RoundEntry[]; readonly problem: string | null };

export const fromStored = ({ id, deletedAt, digest }: StoredVisit): readonly RoundEntry[] =>
  deletedAt !== null || digest?.form !== DIGEST_FORM ? [] : [{ key: id, digest, isKept: true, file: null }];

/** The lines of a bulk run. A line that cannot be read costs only itself and is counted in the problem. */
export async function readRoundLines(name: string, lines: AsyncIterable<string>): Promise<OpenedFile> {
  const read: (RoundEntry | null)[] = [];
  for await (const line of lines) if (line.trim() !== "") read.push(fromFindings(`${name}:${read.length + 1}`, parsed(line)));
  return opened(name, read);
}

/** Whatever stands in one other file: a visit file, a findings document, or a result of a bulk run. */
export function readRoundFile(name: string, text: string, file: File | null = null): OpenedFile {
  if (text.includes('"evenhead-visit"')) return opened(name, [fromVisitText(name, text, file)]);
  return opened(name, [fromFindings(name, parsed(text))]);
}

function opened(name: string, read: readonly (RoundEntry | null)[]): OpenedFile {
  const entries = read.filter((entry) => entry !== null);
  const lost = read.length - entries.length;
  if (entries.length === 0) return { name, entries, problem: ROUND_WORDS.noEntry(name) };
  return { name, entries, problem: lost === 0 ? null : ROUND_WORDS.lostEntries(name, lost, read.length) };
}

/** A saved visit; null where its findings were not saved or are damaged. */
function fromVisitText(name: string, text: string, file: File | null): RoundEntry | null {
  const { visit } = readVisitFile(text);
  const digest = visit === null ? null : digestOfVisit(visit);
  return digest === null ? null : { key: visit?.about?.id ?? name, digest, isKept: false, file };
}

/** A findings document, alone or with what a bulk run writes beside it: the log's path and a small trace. */
function fromFindings(key: string, value: unknown): RoundEntry | null {
  const document = typeof value === "object" && value !== null && "document" in value ? value.document : value;
  const checked = v.safeParse(findingsSchema, document);
  if (!checked.success) return null;
  const beside = v.safeParse(besideSchema, value);
  const { log, trace } = beside.success ? beside.output : NOTHING_BESIDE;
  const digest = digestOf(checked.output, { title: null, log, trace });
  return { key, digest: digest.site === "" ? { ...digest, site: key } : digest, isKept: false, file: null };
}

const besideSchema = v.object({
  log: v.optional(v.nullable(v.string()), null),
  trace: v.optional(v.nullable(v.fallback(v.nullable(traceSchema), null)), null),
});
const NOTHING_BESIDE = { log: null, trace: null } as const;

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Each record once: a visit that is kept here before the same one in a file, a file before findings alone. */
export function eachOnce(entries: readonly RoundEntry[]): { readonly entries: readonly RoundEntry[]; readonly twice: number } {
  const rank = (entry: RoundEntry) => (entry.isKept ? 0 : entry.file !== null ? 1 : 2);
  const seen = new Set<string>();
  const kept = entries
    .toSorted((a, b) => rank(a) - rank(b))
    .filter(({ key, digest }) => {
      const names = [key, `${digest.record} ${digest.site}`];
      const isNew = names.every((name) => !seen.has(name));
      for (const name of names) seen.add(name);
      return isNew;
    });
  return { entries: kept, twice: entries.length - kept.length };
}
