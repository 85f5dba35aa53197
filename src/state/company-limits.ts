import { COMPANY_LIMITS, type CompanyLimits } from "../../shared/site/company-limits";
import { usableLimits } from "../views/site-facts/entries";

const KEPT_UNDER = "evenhead-company-limits";

/** The company's limits as kept in this browser; none where nothing is kept or it cannot be read. */
export function keptCompanyLimits(): CompanyLimits {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEPT_UNDER) ?? "{}");
    const texts = new Map(typeof kept === "object" && kept !== null ? Object.entries(kept) : []);
    const read = COMPANY_LIMITS.flatMap((key) => (typeof texts.get(key) === "string" ? [[key, String(texts.get(key))] as const] : []));
    return usableLimits(Object.fromEntries(read));
  } catch {
    return {};
  }
}

/** Keeps them; where storage is refused they last as long as the visit on the page. */
export function keepCompanyLimits(limits: CompanyLimits): void {
  try {
    localStorage.setItem(KEPT_UNDER, JSON.stringify(limits));
  } catch {
    // Storage refused: nothing to keep it in.
  }
}
