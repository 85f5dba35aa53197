import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { CAUSES } from "../../../analysis/diagnosis/causes";
import { OBSERVATION_IDS, OBSERVATIONS, type ObservationId } from "../../../shared/findings/observation";
import type { Tables } from "./fit-weights";

const keyOf = (name: string) => (/^[a-z]+$/.test(name) ? name : `"${name}"`);
const levelsOf = (id: ObservationId): readonly string[] => OBSERVATIONS[id];

/** `{ none: -0.3, present: 0.6 }`, without what is 0. */
function line(id: ObservationId, values: readonly number[], digits: number): string {
  const parts = levelsOf(id).flatMap((level, l) => (values[l] === 0 ? [] : [`${keyOf(level)}: ${Number(values[l].toFixed(digits))}`]));
  return `${keyOf(id)}: { ${parts.join(", ")} }`;
}

/** Puts the numbers of a question's line in a source file; everything about it stays. */
function replaced(text: string, id: ObservationId, written: string): string {
  const found = new RegExp(`^  +(?:"${id}"|${id}): \\{[^}]*\\}`, "m").exec(text);
  if (found === null) throw new RangeError(`write-tables: no line for ${id}`);
  return text.replace(found[0], `${/^ +/.exec(found[0])?.[0] ?? ""}${written}`);
}

/** Shares to two places that still sum to 1: the largest takes up the rounding. */
function rounded(shares: readonly number[]): number[] {
  const cents = shares.map((s) => Math.round(100 * s));
  cents[shares.indexOf(Math.max(...shares))] += 100 - cents.reduce((a, b) => a + b, 0);
  return cents.map((c) => c / 100);
}

/** Writes fitted tables into the files of `analysis/diagnosis` that hold them: weights to one place, usual chances to two. */
export function writeTables(diagnosis: string, { background, weights }: Tables): void {
  const change = (path: string, edit: (text: string) => string) => writeFileSync(path, edit(readFileSync(path, "utf8")));
  change(join(diagnosis, "background.ts"), (text) =>
    OBSERVATION_IDS.reduce((all, id, k) => replaced(all, id, line(id, rounded(background[k]), 2)), text),
  );
  CAUSES.forEach((cause, c) => {
    change(join(diagnosis, "causes", `${cause.id}.ts`), (text) =>
      OBSERVATION_IDS.reduce((all, id, k) => {
        const own = weights[c][k];
        return own === null ? all : replaced(all, id, line(id, own, 1));
      }, text),
    );
  });
}
