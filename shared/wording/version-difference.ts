import { CAUSE_IDS } from "../findings/cause";
import { FINDING_KINDS } from "../findings/finding";
import type { FindingsDocument } from "../schemas/findings-document";
import type { KeptFindings } from "../schemas/visit-parts";
import { sayCause } from "./cause";
import { QUESTIONS } from "./finding";

/**
 * What a visit shows now against what it showed when it was saved by another version of this program, in sentences; empty where the
 * versions are the same. Units do not count: kinds and ranks are compared, not sentences.
 */
export function sayVersionDifference(kept: KeptFindings, now: FindingsDocument): readonly string[] {
  if (kept.program === now.program) return [];
  const head = `Saved by version ${kept.program}, worked out again by version ${now.program}.`;
  const kinds = (document: KeptFindings) => document.findings.map((finding) => finding.kind);
  const [then, today] = [kinds(kept), kinds(now)];
  const changed = FINDING_KINDS.filter((kind) => then.includes(kind) !== today.includes(kind)).map((kind) => QUESTIONS[kind]);
  const [firstThen, firstNow] = [sayFirstCause(kept), sayFirstCause(now)];
  const differences = [
    ...(changed.length === 0 ? [] : [`Answered differently now: ${changed.join(" ")}`]),
    ...(firstThen === firstNow ? [] : [`The first cause was ${firstThen}; now it is ${firstNow}.`]),
  ];
  return [head, ...(differences.length === 0 ? ["It shows the same, and the first cause is the same."] : differences)];
}

/** A cause that this version does not know stands by its id. */
function sayFirstCause({ causes }: KeptFindings): string {
  const first = causes[0]?.id ?? null;
  const known = CAUSE_IDS.find((id) => id === first);
  return known === undefined ? (first ?? "not named") : `\u201c${sayCause(known).name}\u201d`;
}
