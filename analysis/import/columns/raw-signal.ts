import type { Unit } from "../../../shared/units/unit-table";
import type { RawSignal } from "./column-reading";
import type { ColumnValues } from "./column-values";
import { type FoundUnit, wholeUnit } from "./unit-from-text";

/** What a raw signal stands for between its two ends. */
export type SignalRange = { readonly low: number; readonly high: number; readonly found: FoundUnit };

const TO = "\\s*(?:ma|v)?\\s*(?:-|–|to|bis|\\.\\.+|…|a|à|tot|/)\\s*";
const SIGNALS: readonly (readonly [RegExp, RawSignal])[] = [
  [new RegExp(`(?<!\\d[.,]?)4${TO}20\\s*ma?\\b`, "i"), { kind: "4-20 mA", low: 0.004, high: 0.02 }],
  [new RegExp(`(?<!\\d[.,]?)0${TO}20\\s*ma\\b`, "i"), { kind: "0-20 mA", low: 0, high: 0.02 }],
  [new RegExp(`(?<!\\d[.,]?)0${TO}10\\s*v(?:dc)?\\b`, "i"), { kind: "0-10 V", low: 0, high: 10 }],
  [new RegExp(`(?<!\\d[.,]?)1${TO}5\\s*v(?:dc)?\\b`, "i"), { kind: "1-5 V", low: 1, high: 5 }],
  [new RegExp(`(?<!\\d[.,]?)0${TO}5\\s*v(?:dc)?\\b`, "i"), { kind: "0-5 V", low: 0, high: 5 }],
  [new RegExp(`(?<!\\d[.,]?)2${TO}10\\s*v(?:dc)?\\b`, "i"), { kind: "2-10 V", low: 2, high: 10 }],
];

const BITS = /(?<![\d.])(8|1[0-6])[ -]?bits?\b/i;
const COUNTED = /(-?\d+)\s*(?:-|–|to|bis|\.\.+|…|a|à|tot)\s*(\d+)\s*(?:counts?|digits?|cts|lsb|adc)\b/i;

/** The span of a converter that a text names ("0..4095 counts", "12 bit"), or null. */
export function countsInText(text: string): RawSignal | null {
  const span = COUNTED.exec(text);
  if (span !== null && Number(span[1]) < Number(span[2])) return { kind: "counts", low: Number(span[1]), high: Number(span[2]) };
  const bits = BITS.exec(text);
  return bits === null ? null : { kind: "counts", low: 0, high: 2 ** Number(bits[1]) - 1 };
}

/** The raw signal that a text names ("4-20 mA", "0.5-4.5 V", "0.5 V = 0 bar, 4.5 V = 10 bar"), or null. */
export function signalInText(text: string): RawSignal | null {
  const usual = SIGNALS.find(([form]) => form.test(text))?.[1];
  if (usual !== undefined) return usual;
  const points = TWO_POINTS.exec(text);
  if (points !== null && points[2] !== "%") return signalBetween(points[1], points[5], points[2]);
  const span = SIGNAL_SPAN.exec(text);
  return span === null ? null : signalBetween(span[1], span[2], span[3]);
}

const ELECTRIC: Readonly<Record<string, "mA" | "V" | "mV">> = { ma: "mA", v: "V", vdc: "V", mv: "mV" };

function signalBetween(from: string, to: string, written: string): RawSignal | null {
  const [low, high] = [number(from), number(to)];
  const unit = ELECTRIC[written.toLowerCase()];
  if (unit === undefined || !(low < high)) return null;
  const kind = `${low}-${high} ${unit}` as const;
  return { kind, low: low * stepOf(kind), high: high * stepOf(kind) };
}

/** SI of one step of a signal's own unit: 0.001 for mA and mV, 1 for V. */
export const stepOf = (kind: RawSignal["kind"]): number => (/m[AV]$/.test(kind) ? 1e-3 : 1);

/** The raw signal that unit and values speak for: milliamperes within the live range, volts from 0 to 10, counts of a converter. */
export function signalOfValues(unit: FoundUnit | null, words: string, values: ColumnValues): RawSignal | null {
  if (unit === null) return COUNT_WORDS.test(words) ? countsSignal(values) : null;
  if (unit.unit.symbol === "mA" && values.low >= -0.1 && values.high <= 25) {
    // a live zero: what rests at 4 and never stays lower but for a broken wire
    return values.median >= 3.6 ? SIGNALS[0][1] : SIGNALS[1][1];
  }
  if (unit.unit.symbol === "µA" && values.low >= 3400 && values.high <= 22_500) return SIGNALS[0][1];
  if (isLoopInAmperes(unit.unit, values)) return SIGNALS[0][1];
  if (unit.unit.symbol !== "V" && unit.unit.symbol !== "mV") return null;
  const [low, high] = [values.low * unit.unit.factor, values.high * unit.unit.factor];
  if (low < -0.5 && low >= -11 && high <= 11) return signalBetween("-10", "10", "V");
  if (low < -0.5 || high > 11) return null;
  if (high > 5.3) return low >= 1.9 && values.median * unit.unit.factor < 3 ? SIGNALS[5][1] : SIGNALS[2][1];
  return low >= 0.95 ? SIGNALS[3][1] : SIGNALS[4][1];
}

/**
 * A loop of 4-20 mA written in amperes: all but a twentieth lies within it, nothing passes 22.5 mA. No pump's motor runs on so little (common
 * practice, no source).
 */
export function isLoopInAmperes(unit: Unit | null, { sorted }: ColumnValues): boolean {
  if (unit?.symbol !== "A" || sorted.length === 0) return false;
  const usual = sorted[Math.round(0.05 * (sorted.length - 1))];
  return usual >= 0.0034 && sorted[0] >= -1e-4 && sorted[sorted.length - 1] <= 0.0225;
}

/** Per cent of a span that nobody names, of a quantity that has no per cent of its own. */
export const PERCENT_OF_SPAN: RawSignal = { kind: "0-100 %", low: 0, high: 1 };

export const COUNT_WORDS = /\bcounts?\b|\badc\b|\braw\b|\bdigits?\b|\bcts\b|\blsb\b|\brohwert\w*\b|\bbrut\b|\bcuentas\b/;

function countsSignal(values: ColumnValues): RawSignal {
  const top = [255, 1023, 4095, 16383, 32767, 65535].find((limit) => values.high <= limit) ?? 65535;
  return { kind: "counts", low: 0, high: top };
}

const NUMBER = "[+\\-\u2212]?\\d+(?:[.,]\\d+)?";
const UNIT = '("Hg|[^\\d\\s=;|)\\]:@][^=;|)\\]:@]*)';
const SPAN = new RegExp(
  `(${NUMBER})\\s*(?:\\p{L}[\\p{L}\\d²³/]*\\s*)??(?:\\.\\.+|…|-|–|\\bto\\b|\\bbis\\b|\\ba\\b|à|\\btot\\b|\\bhasta\\b|\\bate\\b|~)\\s*(${NUMBER})\\s*${UNIT}`,
  "giu",
);
const STANDS_FOR =
  "(?:=>?|:|->|→|~|@|,|;|\\bis\\b|\\bat\\b|\\bequals\\b|\\bcorresponds to\\b|\\bentspricht\\b|\\bist\\b|\\bsind\\b|\\bvaut\\b|\\bcorrespond à|\\bequivale a\\b|\\bcorresponde a\\b|\\bcorrisponde a\\b|\\bkomt overeen met\\b)";
/** A span between two numbers in a unit of an electric signal, the first with or without it. */
const SIGNAL_SPAN = new RegExp(
  `(?<!\\d[.,]?)(${NUMBER})\\s*(?:m?[AV])?\\s*(?:\\.\\.+|…|-|–|\\bto\\b|\\bbis\\b|\\ba\\b|à|\\btot\\b)\\s*(${NUMBER})\\s*(mA|mV|V(?:DC)?)(?![\\p{L}\\d])`,
  "iu",
);
/** Words between the two points are few and short: a line of nothing but letters must not cost time. */
const TWO_POINTS = new RegExp(
  `(${NUMBER})\\s*(ma|v|mv|%)\\s*${STANDS_FOR}\\s*(${NUMBER})\\s*([^\\d\\s=;,|]{0,24})\\s*[,;/|]?\\s*(?:\\p{L}{1,16}[\\s.:]{1,3}){0,3}(${NUMBER})\\s*\\2\\s*${STANDS_FOR}\\s*(${NUMBER})\\s*${UNIT}`,
  "iu",
);

/** "0..10 bar", "0-10 bar", "-1 to 9 bar", "4-20mA = 0-10 bar", "4 mA = 0 bar, 20 mA = 10 bar": the range in a unit of measure, or null. */
export function readRange(text: string): SignalRange | null {
  const points = TWO_POINTS.exec(text);
  if (points !== null) {
    const found = unitAtFront(points[7]);
    if (found !== null) return { low: number(points[3]), high: number(points[6]), found };
  }
  // "4-20mA 0-10bar": what follows the signal's own span is looked at again
  const span = new RegExp(SPAN);
  let percent: SignalRange | null = null;
  for (let match = span.exec(text); match !== null; match = span.exec(text)) {
    const found = unitAtFront(match[3]);
    span.lastIndex = match.index + match[0].length - match[3].length;
    if (found === null || found.unit.quantity === "electricCurrent" || found.unit.quantity === "voltage") continue;
    if (!(number(match[1]) < number(match[2]))) continue;
    const range = { low: number(match[1]), high: number(match[2]), found };
    // "0-100 % = 0-10 bar": per cent are the signal where a range in another unit follows
    if (found.unit.quantity !== "fraction") return range;
    percent ??= range;
  }
  return percentRange(text) ?? percent;
}

const NAMED = "(?:of|von|vom|de|di|do|du|da|van|f\\.?s\\.?|the|full scale|span|range|messbereich|max\\.?|is|[=:≙@(\\[])";
/** "0.5 % of 10 bar" is how exact a sensor is; only the whole, or per cent without a number, is the range. */
const PERCENT_RANGE = new RegExp(
  `(?:(?<![\\d.,]\\s{0,2})|(?<![\\d.,])100\\s{0,2})(?:%|per ?cent|prozent|pct)(?:\\s{0,2}${NAMED}){0,4}\\s{0,2}(${NUMBER})\\s*${UNIT}`,
  "iu",
);

/** "% of 10 bar", "100 % = 10 bar", "% FS (10 bar)": per cent of a range from 0, or null. */
function percentRange(text: string): SignalRange | null {
  const match = PERCENT_RANGE.exec(text);
  const found = match === null ? null : unitAtFront(match[2]);
  if (match === null || found === null || found.unit.quantity === "fraction" || !(number(match[1]) > 0)) return null;
  return { low: 0, high: number(match[1]), found };
}

/** Whether a text names the range that its per cent are of. */
export const namesPercentRange = (text: string): boolean =>
  /%|cent|prozent|pct/i.test(text) && (readRange(text)?.found.unit.quantity ?? "fraction") !== "fraction";

const number = (text: string) => Number(text.replace("\u2212", "-").replace(",", "."));

export function unitAtFront(text: string): FoundUnit | null {
  const words = text.trim().split(/\s+/);
  for (let n = Math.min(4, words.length); n > 0; n--) {
    const found = wholeUnit(words.slice(0, n).join(" ").replace(/[,.]$/, ""));
    if (found !== null) return found;
  }
  return null;
}

/** SI of the measured quantity = number in the file * factor + offset. @param unitOfSignal SI of one step of the file's number: 0.001 for mA, 1 for V and counts */
export function rangeScale(raw: RawSignal, unitOfSignal: number, range: SignalRange): { readonly factor: number; readonly offset: number } {
  const { unit } = range.found;
  const slope = (range.high - range.low) / (raw.high - raw.low);
  return { factor: unitOfSignal * slope * unit.factor, offset: (range.low - raw.low * slope) * unit.factor + unit.offset };
}
