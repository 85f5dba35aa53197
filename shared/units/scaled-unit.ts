import { findUnit, type Unit } from "./unit-table";

/** A unit and the scale written to it. `other`: what the same words may mean as well; null where they mean one thing only. */
export type ScaledUnit = { readonly unit: Unit; readonly other: Unit | null };

const SCALE = "(?:10\\s*(?:\\^|\\*\\*)\\s*[-+−]?\\d|10[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]|\\d+[eE][-+]?\\d|1/\\d+|\\d+(?:[.,]\\d+)?)";
const TIMES = "[x×*·]";
/** "tenths of bar", "Hundertstel bar". */
const PARTS: readonly (readonly [RegExp, string])[] = [
  [/^(?:tenths?(?: of)?|zehntel|dixi[eè]mes? de|d[eé]cimas? de|decimi di|tienden?)\s+(?:an? )?/i, "0.1 "],
  [/^(?:hundredths?(?: of)?|hundertstel|centi[eè]mes? de|cent[eé]simas? de|centesimi di|honderdsten?)\s+(?:an? )?/i, "0.01 "],
  [/^(?:thousandths?(?: of)?|tausendstel|milli[eè]mes? de|mil[eé]simas? de|millesimi di|duizendsten?)\s+(?:an? )?/i, "0.001 "],
];
const BEFORE = new RegExp(`^(${TIMES})?\\s*(${SCALE})\\s*${TIMES}?\\s*(\\D.*)$`, "iu");
const BEHIND = new RegExp(`^(.*\\S)\\s*${TIMES}\\s*(${SCALE})$`, "iu");
const DIVIDED = /^(.*\S)\s*\/\s*(10+)$/u;
const SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/**
 * "0.1 psi", "x0.01 bar", "1/10 L/min", "kPa x 10", "bar/100", "10⁻³ m³/s": the unit that one step of the numbers is. Where the scale is above one the
 * same words also stand over numbers that were multiplied by it already ("bar x 100" over 380), and a bare "10 bar" also over a sensor's range.
 * @param signedOnly a bare scale in front ("10 bar") is none
 */
export function readScaledUnit(text: string, signedOnly = false): ScaledUnit | null {
  const part10 = PARTS.find(([words]) => words.test(text.trim()));
  if (part10 !== undefined) return readScaledUnit(text.trim().replace(part10[0], `x${part10[1]}`));
  const before = BEFORE.exec(text.trim());
  if (before !== null) {
    const [, sign, scale, name] = before;
    const found = scaled(name, scaleOf(scale));
    if (found === null) return null;
    if (sign === undefined && (signedOnly || !isPowerOfTen(found.scale))) return null;
    return { unit: found.unit, other: found.scale > 1 && found.of.quantity !== "volume" ? (sign ? divided(found) : found.of) : null };
  }
  const behind = BEHIND.exec(text.trim());
  const found = behind === null ? null : scaled(behind[1], scaleOf(behind[2]));
  if (found !== null) return { unit: found.unit, other: found.scale > 1 ? divided(found) : null };
  const parts = DIVIDED.exec(text.trim());
  const part = parts === null ? null : scaled(parts[1], 1 / Number(parts[2]));
  return part === null ? null : { unit: part.unit, other: null };
}

type Found = { readonly unit: Unit; readonly of: Unit; readonly scale: number };

function scaled(name: string, scale: number): Found | null {
  const of = findUnit(name);
  return of === null || !(scale > 0) || scale === 1 ? null : { unit: times(of, scale), of, scale };
}

const divided = ({ of, scale }: Found): Unit => times(of, 1 / scale);

const times = (of: Unit, scale: number): Unit => ({
  ...of,
  symbol: `${Number(scale.toPrecision(6))} ${of.symbol}`,
  factor: of.factor * scale,
  aliases: [],
});

const isPowerOfTen = (scale: number) => Math.abs(Math.log10(scale) - Math.round(Math.log10(scale))) < 1e-9;

function scaleOf(text: string): number {
  const raised = /^10\s*(?:\^|\*\*)\s*([-+−]?\d)$/.exec(text) ?? /^10([⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹])$/u.exec(text);
  if (raised !== null) {
    const exponent = raised[1].replace("−", "-").replace("⁻", "-").replace("⁺", "");
    return 10 ** Number(exponent.replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/u, (digit) => String(SUPERSCRIPTS.indexOf(digit))));
  }
  if (text.startsWith("1/")) return 1 / Number(text.slice(2));
  return Number(text.replace(",", "."));
}
