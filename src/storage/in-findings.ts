import type { KeptFindings } from "../../shared/schemas/visit-parts";

/** A number somewhere in the document; null where it is not there or not known. */
export function numberIn(findings: KeptFindings, ...path: readonly string[]): number | null {
  const value = valueIn(findings, ...path);
  return typeof value === "number" ? value : null;
}

/** Whatever stands at a path in the document; null where the path ends before. */
export function valueIn(findings: KeptFindings, ...path: readonly string[]): unknown {
  let at: unknown = findings;
  for (const name of path) at = typeof at === "object" && at !== null ? new Map(Object.entries(at)).get(name) : null;
  return at;
}
