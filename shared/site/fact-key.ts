import type { WrittenKind } from "../units/parse-quantity";
import { SITE_FACTS, SITE_LIMITS, type SiteFactName, type SiteLimitName } from "./read-site-facts";

/** A fact of the site by name; an acceptance limit carries the name of its group, as in the messages of the site file. */
export type FactKey = SiteFactName | `limits.${SiteLimitName}`;

/** What kind of entry a fact takes. */
export type FactEntry =
  | { readonly kind: WrittenKind | "text"; readonly example: string }
  | { readonly kind: "choice"; readonly options: readonly string[]; readonly example: string };

const LIMITS = Object.entries(SITE_LIMITS).map(([name, entry]) => [`limits.${name}`, entry] as const);

/** Every fact that can be entered, in the order of the site file. */
export const FACT_ENTRIES: ReadonlyMap<string, FactEntry> = new Map<string, FactEntry>([...Object.entries(SITE_FACTS), ...LIMITS]);

/** Narrows a name that comes from a file or a message. */
export const isFactKey = (name: string): name is FactKey => FACT_ENTRIES.has(name);

/** @throws RangeError where there is no such fact */
export function factEntry(key: FactKey): FactEntry {
  const entry = FACT_ENTRIES.get(key);
  if (entry === undefined) throw new RangeError(`factEntry: no fact "${key}"`);
  return entry;
}
