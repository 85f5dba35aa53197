import type { SiteFacts } from "../../shared/site/site-facts";

/** The facts as used: each with its SI value, the unit it was written in and where it came from; what is not known is left out. */
export function writeSite(site: SiteFacts): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(site).flatMap(([name, fact]) => (fact === null ? [] : [[name, writeFact(fact)]])));
}

function writeFact(fact: unknown): unknown {
  if (typeof fact === "string") return { value: fact, unit: null, from: "given", text: fact };
  if (typeof fact !== "object" || fact === null) return fact;
  if ("value" in fact && "from" in fact && "unit" in fact)
    return { value: fact.value, unit: fact.unit, from: fact.from, text: "text" in fact ? fact.text : null };
  return Object.fromEntries(Object.entries(fact).flatMap(([name, inner]) => (inner === null ? [] : [[name, writeFact(inner)]])));
}
