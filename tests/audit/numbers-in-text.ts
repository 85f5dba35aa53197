import type { UnitChoice } from "../../shared/units/unit-choice";

/** A number as a reader meets it: its value in the unit that stands behind it, its decimals, and that unit ("" where none does). */
export type ShownNumber = { readonly text: string; readonly value: number; readonly decimals: number; readonly unit: string };

/**
 * SI of one of each unit, written down anew from NIST SP 811 (2008), Appendix B, so that a wrong factor in the program cannot vouch for itself.
 * Feet and metres of water head at 4 C are left out: no sample is shown in them.
 */
const SI: Readonly<Record<string, number>> = {
  psi: 6894.757,
  bar: 1e5,
  kPa: 1e3,
  gpm: 6.30902e-5,
  "L/min": 1e-3 / 60,
  gal: 3.785412e-3,
  L: 1e-3,
  "gal per psi": 3.785412e-3 / 6894.757,
  "L per bar": 1e-3 / 1e5,
  "gal/day": 3.785412e-3,
  "L/day": 1e-3,
  ft: 0.3048,
  m: 1,
  in: 0.0254,
  mm: 1e-3,
  s: 1,
  min: 60,
  h: 3600,
  days: 86_400,
  "%": 0.01,
  "per hour": 1,
  kJ: 1000,
  J: 1,
  hp: 745.6999,
  kW: 1000,
  Hz: 1,
  "": 1,
};
const UNITS = Object.keys(SI)
  .filter((unit) => unit !== "")
  .sort((a, b) => b.length - a.length);
const NUMBER = new RegExp(
  `[\\u2212-]?\\d+(?:\\.\\d+)?(?:\\u202f(?:${UNITS.map((u) => u.replace("/", "\\/")).join("|")})(?![\\w/]))?`,
  "gu",
);
const MINUTES = /(\d+)\u202fmin(?: (\d+)\u202fs)?/gu;
/** Dates, clock times and hashes are no measured numbers; names may hold figures. */
const NOT_MEASURED = /\d{1,2} [A-Z][a-z]+ \d{4}|\d{4}-\d\d-\d\d(?:T[\d:.]+Z)?|\d{1,2}:\d\d(?::\d\d)?|\b[0-9a-f]{64}\b|p0|p1|p2|SHA-256/gu;

/** Every number in a text; "4 min 10 s" is one, and the first of "3.1 to 3.4 psi" is read in the unit of the second. */
export function numbersIn(text: string): readonly ShownNumber[] {
  const found: ShownNumber[] = [];
  const rest = text
    .replace(/[ \n]+/g, " ")
    .replace(/ %/g, "\u202f%")
    .replace(NOT_MEASURED, " ")
    .replace(MINUTES, (whole, minutes: string, seconds: string | undefined) => {
      found.push({ text: whole, value: Number(minutes) * 60 + Number(seconds ?? 0), decimals: 0, unit: "s" });
      return " ; ";
    });
  for (const match of rest.matchAll(NUMBER)) {
    const [, figures, unit] = /^([\u2212-]?[\d.]+)(?:\u202f(.+))?$/u.exec(match[0]) ?? [];
    const value = Number(figures.replace("\u2212", "-"));
    const own = unit ?? unitBehind(rest.slice(match.index + match[0].length)) ?? unitBefore(rest.slice(0, match.index)) ?? "";
    found.push({ text: match[0], value, decimals: figures.split(".")[1]?.length ?? 0, unit: own });
  }
  return found;
}

/** "12 to 15 psi": the unit stands behind the last only. */
const unitBehind = (after: string): string | null => {
  const next = new RegExp(
    `^ (?:to|and) [\\u2212-]?[\\d.]+\\u202f(${UNITS.map((u) => u.replace("/", "\\/")).join("|")})(?![\\w/])`,
    "u",
  ).exec(after);
  return next?.[1] ?? null;
};
/** "18.2 s (17.9 to 18.5)": the unit stands before the bracket. */
const unitBefore = (before: string): string | null => {
  const last = new RegExp(
    `[\\d.]+\\u202f(${UNITS.map((u) => u.replace("/", "\\/")).join("|")})(?: abs)? \\((?:[\\u2212-]?[\\d.]+ to )?$`,
    "u",
  ).exec(before);
  return last?.[1] ?? null;
};

/** Whether one of the SI values, in that unit and rounded to those decimals, is what is shown; a difference may lose its sign in words. */
export function tracesTo({ value, decimals, unit }: ShownNumber, sources: Iterable<number>): boolean {
  const step = 0.5 * 10 ** -decimals * (1 + 1e-6) + Math.abs(value) * 1e-6;
  for (const source of sources) {
    const shown = source / SI[unit];
    if (Math.abs(shown - value) <= step || Math.abs(Math.abs(shown) - Math.abs(value)) <= step) return true;
  }
  return false;
}

/** Every number inside a value, however deep. */
export function numbersOf(value: unknown, into: Set<number> = new Set()): Set<number> {
  if (typeof value === "number") into.add(value);
  else if (typeof value === "object" && value !== null) for (const inner of Object.values(value)) numbersOf(inner, into);
  return into;
}

export type Named = readonly [name: string, units: UnitChoice];
