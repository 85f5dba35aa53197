import type { RawSignal } from "./column-reading";
import type { ColumnValues } from "./column-values";
import { unitAtFront } from "./raw-signal";

const COUNT = "(?:counts?|digits?|cts|lsb|adc|bits?|steps?|ticks?|raw)";
const NUMBER = "[+\\-\u2212]?\\d+(?:[.,]\\d+)?";
const WHOLE = "[+\\-\u2212]?\\d{1,6}(?![.,]\\d)";
const TO = "\\s{0,2}(?:-|–|to|bis|\\.\\.+|…|a|à|tot)\\s{0,2}";
const IS = "\\s{0,2}(?:=>?|->|→|≙|≡|entspricht|corresponds to|is|are)\\s{0,2}";
const UNIT = '("Hg|[^\\d\\s=;|)\\]:@][^=;|)\\]:@]*)';

const SPANS = new RegExp(
  `(${WHOLE})${TO}(${WHOLE})\\s{0,2}${COUNT}?${IS}(${NUMBER})\\s{0,2}[^\\d\\s=;|)\\]]{0,10}?${TO}(${NUMBER})\\s*${UNIT}`,
  "iu",
);
const POINTS = new RegExp(
  `(${WHOLE})\\s{0,2}${COUNT}?${IS}(${NUMBER})\\s{0,2}[^\\d\\s=;,|]{0,12}\\s{0,2}(?:[,;/|]|and|und|et)?\\s{0,2}(${WHOLE})\\s{0,2}${COUNT}?${IS}(${NUMBER})\\s*${UNIT}`,
  "iu",
);
const PER_COUNT = new RegExp(
  `(${NUMBER})\\s*([^\\d\\s=;|)\\]:@/][^\\d=;|)\\]:@/]{0,12}?)\\s*(?:/|\\bper\\b|\\bpro\\b|\\bpar\\b|\\bpor\\b)\\s*${COUNT}\\b`,
  "iu",
);
const ONE_COUNT = new RegExp(`(?<![\\d.,])1\\s*${COUNT}${IS}(${NUMBER})\\s*${UNIT}`, "iu");

/** What the bare counts of a converter stand for, as a text says it: "0..27648 = 0..16 bar", "0 = 0 bar; 4095 = 10 bar", "0.01 bar/count". Null where it says nothing. */
export function countsMap(text: string): RawSignal | null {
  const pairs = SPANS.exec(text);
  if (pairs !== null) return made(number(pairs[1]), number(pairs[2]), number(pairs[3]), number(pairs[4]), pairs[5]);
  const points = POINTS.exec(text);
  if (points !== null) return made(number(points[1]), number(points[3]), number(points[2]), number(points[4]), points[5]);
  const per = PER_COUNT.exec(text) ?? ONE_COUNT.exec(text);
  return per === null ? null : made(0, 1, 0, number(per[1]), per[2]);
}

const number = (text: string) => Number(text.replace("\u2212", "-").replace(",", "."));

function made(low: number, high: number, from: number, to: number, unit: string): RawSignal | null {
  const found = unitAtFront(unit);
  if (found === null || !(low < high) || from === to || found.unit.quantity === "fraction") return null;
  return { kind: "counts", low, high, range: { low: from, high: to, found } };
}

/** Whole numbers within the counts, or beyond what they stand for: numbers that are scaled already are neither. */
export function areCounts({ low, high, range }: RawSignal, { sorted }: ColumnValues): boolean {
  if (range === undefined || sorted.length === 0 || !sorted.every(Number.isInteger)) return false;
  const [least, most] = [sorted[0], sorted[sorted.length - 1]];
  if (high === 1) return true;
  const span = high - low;
  return least >= low - 0.1 * span && most <= high + 0.1 * span && most > Math.max(range.low, range.high);
}
