import type { RawSignal } from "./column-reading";
import type { ColumnValues } from "./column-values";
import { type FoundUnit, wholeUnit } from "./unit-from-text";

/** What a raw signal stands for between its two ends. */
export type SignalRange = { readonly low: number; readonly high: number; readonly found: FoundUnit };

const LOOP: RawSignal = { kind: "4-20 mA", low: 0.004, high: 0.02 };
const SIGNALS: readonly (readonly [RegExp, RawSignal])[] = [
  [/4\s*(?:-|–|to|bis|\.\.+|a|à)\s*20\s*ma?\b/i, LOOP],
  [/(?<!\d)0\s*(?:-|–|to|bis|\.\.+)\s*20\s*ma\b/i, { kind: "0-20 mA", low: 0, high: 0.02 }],
  [/(?<!\d)0\s*(?:-|–|to|bis|\.\.+)\s*10\s*v(?:dc)?\b/i, { kind: "0-10 V", low: 0, high: 10 }],
  [/(?<!\d)1\s*(?:-|–|to|bis|\.\.+)\s*5\s*v(?:dc)?\b/i, { kind: "1-5 V", low: 1, high: 5 }],
  [/(?<!\d)0\s*(?:-|–|to|bis|\.\.+)\s*5\s*v(?:dc)?\b/i, { kind: "0-5 V", low: 0, high: 5 }],
  [/(?<!\d)2\s*(?:-|–|to|bis|\.\.+)\s*10\s*v(?:dc)?\b/i, { kind: "2-10 V", low: 2, high: 10 }],
];

/** The raw signal that a text names ("4-20 mA"), or null. */
export const signalInText = (text: string): RawSignal | null => SIGNALS.find(([form]) => form.test(text))?.[1] ?? null;

/** The raw signal that unit and values speak for: milliamperes within the live range, volts from 0 to 10, counts of a converter. */
export function signalOfValues(unit: FoundUnit | null, words: string, values: ColumnValues): RawSignal | null {
  if (/\bcounts?\b|\badc\b|\braw\b|\bdigits?\b|\bcts\b|\brohwert\w*\b/.test(words) && unit === null) return countsSignal(values);
  if (unit?.unit.symbol === "mA" && values.low >= 0 && values.high <= 25 && values.median >= 3)
    return values.low < 3.5 && values.median < 4 ? { kind: "0-20 mA", low: 0, high: 0.02 } : LOOP;
  if (unit?.unit.symbol !== "V" || values.low < -0.5 || values.high > 11) return null;
  if (values.high > 5.5) return { kind: "0-10 V", low: 0, high: 10 };
  return values.low >= 0.9 ? { kind: "1-5 V", low: 1, high: 5 } : { kind: "0-5 V", low: 0, high: 5 };
}

function countsSignal(values: ColumnValues): RawSignal {
  const top = [255, 1023, 4095, 16383, 32767, 65535].find((limit) => values.high <= limit) ?? 65535;
  return { kind: "counts", low: 0, high: top };
}

const NUMBER = "[+-]?\\d+(?:[.,]\\d+)?";
const RANGE = new RegExp(
  `(${NUMBER})\\s*(?:\\p{L}[\\p{L}\\d²³/]*\\s*)?(?:\\.\\.+|…|-|–|\\bto\\b|\\bbis\\b|\\ba\\b|à|\\btot\\b|\\bhasta\\b|~)\\s*(${NUMBER})\\s*([^\\d\\s=;,)\\]][^=;,)\\]]*|"Hg)`,
  "giu",
);

/** "0..10 bar", "0-10 bar", "-1 to 9 bar", "4-20mA = 0-10 bar": the range in a unit of measure, or null. A range of the signal itself is passed over. */
export function readRange(text: string): SignalRange | null {
  for (const match of text.matchAll(RANGE)) {
    const words = match[3].trim().split(/\s+/);
    for (let n = Math.min(4, words.length); n > 0; n--) {
      const found = wholeUnit(words.slice(0, n).join(" "));
      if (found === null || found.unit.quantity === "electricCurrent" || found.unit.quantity === "voltage") continue;
      const [low, high] = [Number(match[1].replace(",", ".")), Number(match[2].replace(",", "."))];
      if (low < high) return { low, high, found };
    }
  }
  return null;
}

/** SI of the measured quantity = number in the file * factor + offset. @param unitOfSignal SI of one step of the file's number: 0.001 for mA, 1 for V and counts */
export function rangeScale(raw: RawSignal, unitOfSignal: number, range: SignalRange): { readonly factor: number; readonly offset: number } {
  const { unit } = range.found;
  const slope = (range.high - range.low) / (raw.high - raw.low);
  return { factor: unitOfSignal * slope * unit.factor, offset: (range.low - raw.low * slope) * unit.factor + unit.offset };
}
