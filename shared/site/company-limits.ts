import { SiteFileError } from "../problems/site-file-problem";
import { readSiteFacts, SITE_LIMIT_NAMES, type SiteLimitName } from "./read-site-facts";
import type { Fact, SiteFacts } from "./site-facts";

/** What a company may set for all its sites; a site's own limit comes first. */
export type CompanyLimit = "shortCycleLimit" | `limits.${SiteLimitName}`;
export const COMPANY_LIMITS: readonly CompanyLimit[] = [
  "shortCycleLimit",
  ...SITE_LIMIT_NAMES.map((name): CompanyLimit => `limits.${name}`),
];
/** As they were written, by the names of the site file. */
export type CompanyLimits = Readonly<Partial<Record<CompanyLimit, string>>>;

export const COMPANY_FORMAT = "evenhead-limits";
export const COMPANY_VERSION = 1;

/** A file of limits as text: { "format", "version", "shortCycleLimit", "limits": { ... } }, written as in a site file. */
export function writeCompanyLimits(limits: CompanyLimits): string {
  return `${JSON.stringify({ format: COMPANY_FORMAT, version: COMPANY_VERSION, ...asSiteFile(limits) }, null, 2)}\n`;
}

function asSiteFile(written: CompanyLimits): Record<string, unknown> {
  const filled = COMPANY_LIMITS.flatMap((key) => ((written[key] ?? "").trim() === "" ? [] : [[key, written[key]] as const]));
  const limits = filled.flatMap(([key, text]) => (key === "shortCycleLimit" ? [] : [[key.slice("limits.".length), text] as const]));
  return { ...Object.fromEntries(filled.filter(([key]) => key === "shortCycleLimit")), limits: Object.fromEntries(limits) };
}

/**
 * Limits out of a parsed file.
 * @throws SiteFileError naming the limit, what was written and what is expected; where the file is no file of limits
 */
export function readCompanyLimits(file: unknown, name: string): CompanyLimits {
  const { format, version, ...written } = typeof file === "object" && file !== null ? Object.fromEntries(Object.entries(file)) : {};
  if (format !== COMPANY_FORMAT || version !== COMPANY_VERSION) throw new SiteFileError({ id: "not-limits", file: name });
  const { shortCycleLimit, limits, ...other } = written;
  readSiteFacts({ shortCycleLimit, limits, ...other }, name);
  const texts = new Map<string, unknown>([
    ["shortCycleLimit", shortCycleLimit],
    ...Object.entries(limits ?? {}).map(([key, text]) => [`limits.${key}`, text] as const),
  ]);
  return Object.fromEntries(COMPANY_LIMITS.flatMap((key) => (texts.get(key) == null ? [] : [[key, String(texts.get(key))]])));
}

/** The facts with the company's limits where the site gives none of its own. @throws SiteFileError where a limit cannot be read */
export function withCompanyLimits(site: SiteFacts, written: CompanyLimits): SiteFacts {
  const company = readSiteFacts(asSiteFile(written), "");
  const choose = <T, F extends Fact<T> | null>(own: F, theirs: F): F =>
    own?.from === "given" || theirs?.from !== "given" ? own : { ...theirs, from: "company" };
  const { limits } = site;
  return {
    ...site,
    shortCycleLimit: choose(site.shortCycleLimit, company.shortCycleLimit),
    limits: {
      startsPerHour: choose(limits.startsPerHour, company.limits.startsPerHour),
      driftAtSteadyFlow: choose(limits.driftAtSteadyFlow, company.limits.driftAtSteadyFlow),
      oscillationPeakToPeak: choose(limits.oscillationPeakToPeak, company.limits.oscillationPeakToPeak),
      band: choose(limits.band, company.limits.band),
      shareWithinBand: choose(limits.shareWithinBand, company.limits.shareWithinBand),
      worstDip: choose(limits.worstDip, company.limits.worstDip),
      sensorToTank: choose(limits.sensorToTank, company.limits.sensorToTank),
    },
  };
}
