import type { ChannelQuantity, ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { Unit } from "../../../shared/units/unit-table";
import { type ColumnFacts, spacedWords } from "./column-facts";
import { asHead, quantityOf } from "./column-quantity";
import type { ColumnReading, RawSignal } from "./column-reading";
import { areCounts, countsMap } from "./counts-map";
import { settleReference } from "./pressure-reference";
import {
  COUNT_WORDS,
  countsInText,
  isLoopInAmperes,
  namesPercentRange,
  PERCENT_OF_SPAN,
  rangeScale,
  readRange,
  type SignalRange,
  signalInText,
  signalOfValues,
  stepOf,
} from "./raw-signal";
import { unitOptions } from "./unit-proposal";

/**
 * The raw signal a column holds, or null where its numbers are scaled already.
 * @param line the lines above the table, where they can only be about this column
 */
export function rawSignal(
  { column, unit, unitFrom, text, words, values, guess, choice }: ColumnFacts,
  role: ChannelRole,
  line: string,
): RawSignal | null {
  const counts = countsMap(text) ?? (line === "" ? null : countsMap(line));
  const scaled = unit !== null && (unitFrom === "units row" || (unitFrom === "heading" && countsMap(column.heading) === null));
  if (counts !== null && !scaled && areCounts(counts, values)) return counts;
  const named = signalInText(`${choice.rangeText ?? ""} | ${text}`);
  if (unit?.unit.quantity === "fraction" && (role === "pressure" || role === "flow" || namesPercentRange(text))) return PERCENT_OF_SPAN;
  // the line above the table gives the range in a unit; the heading says that the numbers are counts
  const counted = COUNT_WORDS.test(spacedWords(column.heading)) && (unit === null || unitFrom === "preamble");
  if (counted && named === null && role !== "other") return countsInText(text) ?? signalOfValues(null, words, values);
  const electric = unit !== null && (unit.unit.quantity === "electricCurrent" || unit.unit.quantity === "voltage");
  if (unit !== null && !electric) {
    // "Pressure 4-20mA = 0-10 bar" has its unit from the range; whether the numbers are scaled shows in the numbers
    if (named === null || unitFrom === "choice" || unitFrom === "units row" || unitFrom === "cells") return null;
    return restsWithin(named, values.sorted) && readRange(text) !== null && !isBracketed(text, unit.text) ? named : null;
  }
  if (named !== null && (electric || unit === null)) return fitsSignal(named, unit?.unit ?? null, values.low, values.high) ? named : null;
  if (role === "power" || role === "running" || (role === "other" && (guess.by === "words" || guess.by === "rows"))) return null;
  const inLoop = isLoopInAmperes(unit?.unit ?? null, values) || (unit?.unit.symbol === "mA" && values.low >= 3.4 && values.high <= 22.5);
  if (role === "current" && unit?.unit.quantity !== "voltage" && (!inLoop || /motor|pump|moteur|motore|pomp|bomba/.test(words)))
    return null;
  return signalOfValues(unit, `${words} ${text.toLowerCase()}`, values);
}

/** All but a tenth of the numbers lie within the signal's span, and none beyond what a broken wire or a shorted loop can show (NAMUR NE 43). */
function restsWithin(signal: RawSignal, sorted: Float64Array): boolean {
  const scale = 1 / stepOf(signal.kind);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))];
  const inside = at(0.05) >= (signal.low - 0.15 * Math.abs(signal.low)) * scale && at(0.95) <= 1.12 * signal.high * scale;
  return inside && sorted[0] >= Math.min(-0.05 * signal.high, 1.05 * signal.low) * scale && at(1) <= 1.25 * signal.high * scale;
}

const isBracketed = (text: string, unit: string) => text.includes(`(${unit})`) || text.includes(`[${unit}]`);

/** The numbers lie within what such a signal can be, in its own unit. */
function fitsSignal(signal: RawSignal, unit: Unit | null, low: number, high: number): boolean {
  if (signal.kind === "counts") return true;
  const factor = unit?.factor ?? stepOf(signal.kind);
  return low * factor >= Math.min(0, signal.low) - 0.2 * signal.high && high * factor <= 1.25 * signal.high;
}

/** @param alone it is the only column of the file that could be a raw signal, so that a range above the table can only be its own */
export function readRaw(
  base: ColumnReading,
  facts: ColumnFacts,
  bySample: RawSignal,
  preamble: readonly string[],
  alone: boolean,
): ColumnReading {
  const { name, choice, guess, unit } = facts;
  const electric = unit !== null && (unit.unit.quantity === "electricCurrent" || unit.unit.quantity === "voltage");
  const above = alone ? rangeInPreamble(preamble) : null;
  // "0-10 V = 0-16 bar": values that never pass 5 V are no signal of 0-5 V then
  const raw = above?.signal?.kind.slice(-1) === bySample.kind.slice(-1) ? (above.signal ?? bySample) : bySample;
  const unitOfSignal = electric || raw === PERCENT_OF_SPAN ? (unit?.unit.factor ?? 1) : stepOf(raw.kind);
  const spanless = raw.kind === "counts" && raw.range === undefined && countsInText(facts.text) === null;
  const named = choice.range ?? raw.range ?? (spanless ? null : readRange(facts.text)) ?? (spanless ? null : (above?.range ?? null));
  // "Pressure (0-100 %)" names its signal, not what it stands for
  const range = raw === PERCENT_OF_SPAN && named?.found.unit.quantity === "fraction" ? null : named;
  if (range === null) {
    const role = choice.role ?? (guess.by === "unit" || guess.by === "none" || base.role === "current" ? "other" : base.role);
    const reason = [{ kind: "signal-without-range", signal: raw.kind }] as const;
    return {
      ...base,
      role,
      raw,
      unit: unit?.unit.symbol ?? null,
      quantity: quantityOfSignal(raw),
      factor: unitOfSignal,
      certainty: 0.6,
      reason,
      questions: [...base.questions, rangeQuestion(name, raw, role)],
    };
  }
  const byRange = roleOfUnit(range.found.unit);
  const role = choice.role ?? (base.role === "other" || base.role === "current" || guess.by === "unit" ? byRange : base.role);
  const head = asHead(role, range.found.unit) ?? range.found.unit;
  const spanned = { ...facts, unit: range.found, values: { ...facts.values, low: range.low, high: range.high } };
  const reference = settleReference(role, head, spanned, preamble);
  return {
    ...base,
    role,
    raw,
    unit: head.symbol,
    unitOptions: unitOptions(role, head.symbol),
    quantity: reference.quantity ?? quantityOf(head),
    ...signed(rangeScale(raw, unitOfSignal, { ...range, found: { ...range.found, unit: head } }), reference.sign),
    certainty: 0.95,
    reason: [{ kind: "signal", signal: raw.kind, low: range.low, high: range.high, unit: head.symbol }],
  };
}

const signed = ({ factor, offset }: ReturnType<typeof rangeScale>, sign: 1 | -1) => ({ factor: factor * sign, offset: offset * sign });

function quantityOfSignal({ kind }: RawSignal): ChannelQuantity {
  if (kind === "counts") return "none";
  return kind === "0-100 %" ? "fraction" : kind.endsWith("mA") ? "electricCurrent" : "voltage";
}

function roleOfUnit(unit: Unit): ChannelRole {
  const q = unit.quantity;
  if (q === "length") return "level";
  if (q === "flow" || q === "volume" || q === "temperature" || q === "power") return q;
  if (q === "frequency" || q === "rotation") return "speed";
  return q === "pressure" || q === "gaugePressure" || q === "absolutePressure" ? "pressure" : "other";
}

/** The range that a line above the table names, with the signal where the line names that too. */
const rangeInPreamble = (preamble: readonly string[]): { readonly range: SignalRange; readonly signal: RawSignal | null } | null => {
  for (const line of preamble) {
    const range =
      /range|scal|span|bereich|etendue|étendue|gamme|plage|rango|faixa|escala|campo|bereik|messbereich|transducer|sensor|transmitter|\bma\b|\d\s?v\b/i.test(
        line,
      )
        ? readRange(line)
        : null;
    if (range !== null) return { range, signal: signalInText(line) };
  }
  return null;
};

const rangeQuestion = (name: string, raw: RawSignal, role: ChannelRole): ImportQuestion => ({
  id: `range:${name}`,
  asks: { kind: "range", name, signal: raw.kind, counts: raw.kind === "counts" ? raw.high : null, role },
  options: role === "flow" ? ["0..100 L/min", "0..10 m3/h", "0..100 gpm"] : ["0..10 bar", "0..16 bar", "0..100 psi", "0..150 psi"],
  assumed: "none",
});
