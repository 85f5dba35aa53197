import { SiteFileError, type SiteFileProblem } from "../../../shared/problems/site-file-problem";
import { COMPANY_LIMITS, type CompanyLimits, withCompanyLimits } from "../../../shared/site/company-limits";
import { FACT_ENTRIES, type FactKey, factEntry, isFactKey } from "../../../shared/site/fact-key";
import { NO_SITE_FACTS, readSiteFacts } from "../../../shared/site/read-site-facts";
import type { SiteFacts } from "../../../shared/site/site-facts";
import { splitQuantity, type WrittenKind } from "../../../shared/units/parse-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import type { SiteEntry } from "../../state/visit-state";

/** What stands in the fields of the site facts, as typed. A missing or blank entry is a fact not known. */
export type FactEntries = Readonly<Partial<Record<FactKey, string>>>;

/** Entries read: the facts that can be used, and what is wrong with the rest. One bad entry never costs the others. */
export type ReadEntries = { readonly site: SiteFacts; readonly problems: ReadonlyMap<FactKey, SiteFileProblem> };

/** The site file that these entries make: only what was filled in, limits in their group. */
export function toSiteFile(entries: FactEntries): Record<string, unknown> {
  const filled = Object.entries(entries).filter(([key, text]) => isFactKey(key) && text.trim() !== "");
  const limits = filled.filter(([key]) => key.startsWith("limits.")).map(([key, text]) => [key.slice("limits.".length), text]);
  const facts = filled.filter(([key]) => !key.startsWith("limits."));
  return Object.fromEntries(limits.length === 0 ? facts : [...facts, ["limits", Object.fromEntries(limits)]]);
}

/** The entries of a site file, as far as it holds facts we know as text or number; the file itself is checked by `readSiteFacts`. */
export function fromSiteFile(file: unknown): FactEntries {
  const facts = flatFacts(file);
  return Object.fromEntries(facts.filter(([key]) => isFactKey(key)).map(([key, value]) => [key, String(value)]));
}

/** The entries of a site file that holds nothing wrong. @throws SiteFileError */
export function entriesOfFile(file: unknown, name: string): FactEntries {
  readSiteFacts(file, name);
  return fromSiteFile(file);
}

function flatFacts(file: unknown, prefix = ""): [string, string | number][] {
  if (typeof file !== "object" || file === null) return [];
  return Object.entries(file).flatMap(([key, value]: [string, unknown]): [string, string | number][] => {
    if (key === "limits" && prefix === "") return flatFacts(value, "limits.");
    return typeof value === "string" || typeof value === "number" ? [[prefix + key, value]] : [];
  });
}

/** Reads each entry by itself, then all good ones together, so that each problem stands at its own field. */
export function readEntries(entries: FactEntries): ReadEntries {
  const problems = new Map<FactKey, SiteFileProblem>();
  let usable = entries;
  const drop = (key: FactKey, problem: SiteFileProblem) => {
    problems.set(key, problem);
    usable = { ...usable, [key]: "" };
  };
  for (const key of FACT_ENTRIES.keys()) {
    if (!isFactKey(key)) continue;
    const problem = problemOf({ [key]: entries[key] ?? "" });
    if (problem !== null) drop(key, problem);
  }
  for (;;) {
    const problem = problemOf(usable);
    if (problem === null) return { site: readSiteFacts(toSiteFile(usable), ""), problems };
    if (problem.id !== "facts-disagree" || !isFactKey(problem.fact) || usable[problem.fact] === "")
      return { site: NO_SITE_FACTS, problems };
    drop(problem.fact, problem);
  }
}

function problemOf(entries: FactEntries): SiteFileProblem | null {
  try {
    readSiteFacts(toSiteFile(entries), "");
    return null;
  } catch (error) {
    if (error instanceof SiteFileError) return error.problem;
    throw error;
  }
}

/** The entries as the page keeps them: a blank entry is no entry, so that the same facts compare and save as the same. */
export function toSiteEntry(entries: FactEntries): SiteEntry {
  const written = Object.fromEntries(Object.entries(entries).filter(([, text]) => text.trim() !== ""));
  return { written, facts: withCompanyLimits(readEntries(written).site, companyIn(written)) };
}

/** Limits of the company stand among the entries of a visit under names of their own, so that they go where the visit goes. */
const COMPANY = "company.";
export const isCompanyEntry = (key: string): boolean => key.startsWith(COMPANY);

function companyIn(written: SiteEntry["written"]): CompanyLimits {
  const found = COMPANY_LIMITS.flatMap((key) => (written[COMPANY + key] === undefined ? [] : [[key, written[COMPANY + key]] as const]));
  return usableLimits(Object.fromEntries(found));
}

/** The limits of the company that a visit stands under. */
export const companyLimitsOf = ({ written }: SiteEntry): CompanyLimits => companyIn(written);

/** Those limits that can be read; a kept visit may hold one that this version does not know. */
export function usableLimits(limits: CompanyLimits): CompanyLimits {
  const { problems } = readEntries(limits);
  return Object.fromEntries(Object.entries(limits).filter(([key]) => !(isFactKey(key) && problems.has(key))));
}

/** A visit's facts with these limits of the company instead of those it had. */
export function underCompanyLimits({ written }: SiteEntry, limits: CompanyLimits): SiteEntry {
  const own = Object.entries(written).filter(([key]) => !isCompanyEntry(key));
  const theirs = Object.entries(limits).map(([key, text]) => [COMPANY + key, text]);
  return toSiteEntry(Object.fromEntries([...own, ...theirs]));
}

/** The unit a bare number is taken in, by what the person chose to read in; null where the entry needs none. */
export function unitForBareNumber(kind: WrittenKind | "text" | "choice", units: UnitChoice): string | null {
  switch (kind) {
    case "gaugePressure":
    case "pressureDifference":
      return units.pressure;
    case "flow":
      return units.flow;
    case "volume":
      return units.volume;
    case "length":
      return units.length;
    case "power":
      return units.power;
    case "time":
      return "s";
    case "fraction":
      return "%";
    case "count":
    case "text":
    case "choice":
      return null;
  }
}

/** "52" becomes "52 psi"; whatever else was typed stays as it is. */
export function completeEntry(key: FactKey, typed: string, units: UnitChoice): string {
  const text = typed.trim();
  const unit = bareNumberUnit(key, units);
  const written = splitQuantity(text);
  return unit !== null && written !== null && written.unit === "" ? `${text} ${unit}` : text;
}

/** Inside diameters are measured in inches or millimetres, not in the unit of distances. */
export function bareNumberUnit(key: FactKey, units: UnitChoice): string | null {
  if (key === "pipeInsideDiameter") return units.length === "ft" ? "in" : "mm";
  return unitForBareNumber(factEntry(key).kind, units);
}
