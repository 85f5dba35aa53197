import { findUnit } from "../../../shared/units/unit-table";
import { foldHeading } from "../clock/column-profile";
import type { ColumnText } from "./column-reading";

const LETTERED = /^(.*\S)[\s_-]+([A-H])$/;
/** A numbered machine with an A behind it: "Pump 1 A". Common practice, no source. */
const MACHINE = /\b(?:pump|pumpe|motor|drive|pompe|moteur|bomba|pompa|motore|pomp)[\s_-]*\d+[\s_-]+A$/i;

/** What a capital letter alone at the end of a heading is: a place ("P A" beside "P B"), or a unit ("Pump 1 A", "A" beside "psi"). Null where the heading has none, or only its words decide. */
export function lastLetters(columns: readonly ColumnText[]): readonly ("place" | "unit" | null)[] {
  const found = columns.map(({ heading }) => LETTERED.exec(heading));
  const letters = new Map<string, Set<string>>();
  for (const match of found) if (match !== null) letters.set(stem(match[1]), (letters.get(stem(match[1])) ?? new Set()).add(match[2]));
  const named = columns.some(({ heading }) => heading.length > 1 && findUnit(heading) !== null);
  return found.map((match, i) => {
    if (match === null) return named && /^[A-Z]$/.test(columns[i].heading) && findUnit(columns[i].heading) !== null ? "unit" : null;
    const beside = letters.get(stem(match[1]));
    if (beside?.has("A") === true && beside.has("B")) return "place";
    return MACHINE.test(columns[i].heading) ? "unit" : null;
  });
}

const stem = (heading: string) => foldHeading({ index: 0, heading, unitsCell: null, sample: [] });

/** "P1 A": a place or amperes, which no one but a person can say. */
export const endsInDoubt = (heading: string): boolean => /\d[\s_-]+A$/.test(heading);
