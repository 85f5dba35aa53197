import * as v from "valibot";
import type { LostPart, VisitFileProblem } from "../problems/visit-file-problem";
import { checksum } from "./checksum";
import { readParts } from "./visit-lines";
import {
  aboutSchema,
  beforeSchema,
  checklistSchema,
  choicesSchema,
  findingsSchema,
  type KeptBefore,
  type KeptChecklist,
  type KeptChoices,
  type KeptFindings,
  type KeptLog,
  type KeptMeasures,
  logSchema,
  measuresSchema,
  siteSchema,
  type ThinTrace,
  traceSchema,
  type VisitAbout,
} from "./visit-parts";

/** How the name of a visit file ends. */
export const VISIT_FILE_END = ".evenhead.json";
export const VISIT_FORMAT = "evenhead-visit";
export const VISIT_VERSION = 3;

/** Everything that is kept of a visit; null where a part was not saved or was lost. */
export type VisitFile = {
  readonly about: VisitAbout | null;
  readonly site: Readonly<Record<string, string>> | null;
  readonly choices: KeptChoices | null;
  readonly checklist: KeptChecklist | null;
  readonly findings: KeptFindings | null;
  readonly measures: KeptMeasures | null;
  readonly before: KeptBefore | null;
  readonly trace: ThinTrace | null;
  readonly log: KeptLog | null;
};

export type ReadVisit =
  | { readonly visit: VisitFile; readonly lost: readonly LostPart[]; readonly problem: null }
  | { readonly visit: null; readonly problem: VisitFileProblem };

/** In the order of the file: the small and dear first, the large last, so that a file cut short loses the least. */
const PARTS = [
  "about",
  "site",
  "choices",
  "checklist",
  "findings",
  "measures",
  "before",
  "trace",
  "log",
] as const satisfies readonly (keyof VisitFile)[];
/** Without these a visit is still whole. */
const MAY_BE_ABSENT: ReadonlySet<string> = new Set(["trace", "log", "findings", "measures", "before"]);

/** From each older version to the next: takes the parts of that version by name. The list grows with VISIT_VERSION. */
export type Upgrader = (parts: ReadonlyMap<string, unknown>) => ReadonlyMap<string, unknown>;
export const UPGRADERS: ReadonlyMap<number, Upgrader> = new Map([
  // Version 2 brought the measures. They cannot be had from the other parts: a visit of version 1 has none until it is worked out again.
  [1, (parts) => new Map([...parts].filter(([part]) => part !== "measures"))],
  // Version 3 brought the earlier visit that it is compared with; before, nothing was kept of it.
  [2, (parts) => new Map([...parts].filter(([part]) => part !== "before"))],
]);

/**
 * A visit as text: JSON with one part a line, and a checksum for each part, so that damage to one never costs the rest.
 * The same visit gives the same text.
 */
export function writeVisitFile(visit: VisitFile): string {
  const parts = PARTS.filter((name) => visit[name] !== null).map((name) => [name, JSON.stringify(visit[name])] as const);
  const sums = Object.fromEntries(parts.map(([name, text]) => [name, checksum(text)]));
  const head = [`"format":${JSON.stringify(VISIT_FORMAT)}`, `"version":${VISIT_VERSION}`, `"sums":${JSON.stringify(sums)}`];
  return `{${[...head, ...parts.map(([name, text]) => `"${name}":${text}`)].join(",\n")}\n}\n`;
}

/** Reads a visit file as far as it can be read, and says what was lost. Never throws. */
export function readVisitFile(
  text: string,
  upgraders: ReadonlyMap<number, Upgrader> = UPGRADERS,
  known: number = VISIT_VERSION,
): ReadVisit {
  if (text.trim() === "") return { visit: null, problem: { id: "empty" } };
  const { parts, damaged } = readParts(text);
  if (parts.get("format") !== VISIT_FORMAT) return { visit: null, problem: { id: "not-a-visit" } };
  const version = parts.get("version");
  // A head whose version was lost, or never was one, is read as the present one: the parts' own shapes decide.
  const from = typeof version === "number" && Number.isInteger(version) && version >= 1 ? version : known;
  if (from > known) return { visit: null, problem: { id: "newer-version", version: from, known } };
  const lost: LostPart[] = damaged.map((part) => ({ part, why: "unreadable" }));
  const sound = withoutChanged(parts, lost);
  return shaped(upgraded(sound, from, known, upgraders), lost);
}

/** Parts whose content is no longer what its checksum says are left out. */
function withoutChanged(parts: ReadonlyMap<string, unknown>, lost: LostPart[]): ReadonlyMap<string, unknown> {
  const sums = parts.get("sums");
  const known = new Map(typeof sums === "object" && sums !== null ? Object.entries(sums) : []);
  return new Map(
    [...parts].filter(([part, value]) => {
      const isSound = !known.has(part) || known.get(part) === checksum(JSON.stringify(value));
      if (!isSound) lost.push({ part, why: "changed" });
      return isSound;
    }),
  );
}

function upgraded(parts: ReadonlyMap<string, unknown>, from: number, known: number, upgraders: ReadonlyMap<number, Upgrader>) {
  let now = parts;
  for (let version = from; version < known; version++) now = upgraders.get(version)?.(now) ?? now;
  return now;
}

function shaped(parts: ReadonlyMap<string, unknown>, lost: LostPart[]): ReadVisit {
  const gone = new Set(lost.map(({ part }) => part));
  const take = <T>(part: (typeof PARTS)[number], schema: v.GenericSchema<unknown, T>): T | null => {
    if (!parts.has(part)) {
      if (!gone.has(part) && !MAY_BE_ABSENT.has(part)) lost.push({ part, why: "missing" });
      return null;
    }
    const checked = v.safeParse(schema, parts.get(part));
    if (checked.success) return checked.output;
    lost.push({ part, why: "wrong-shape" });
    return null;
  };
  const visit: VisitFile = {
    about: take("about", aboutSchema),
    site: take("site", siteSchema),
    choices: take("choices", choicesSchema),
    checklist: take("checklist", checklistSchema),
    findings: take("findings", findingsSchema),
    measures: take("measures", measuresSchema),
    before: take("before", beforeSchema),
    trace: take("trace", traceSchema),
    log: take("log", logSchema),
  };
  if (PARTS.every((part) => visit[part] === null)) return { visit: null, problem: { id: "nothing-left" } };
  return { visit, lost, problem: null };
}
