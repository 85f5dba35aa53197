import type { ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { readScaledUnit } from "../../../shared/units/scaled-unit";
import type { Unit } from "../../../shared/units/unit-table";
import type { ColumnReason } from "../../../shared/wording/column-reason";
import type { ColumnFacts } from "./column-facts";
import { asHead, quantityOf } from "./column-quantity";
import { type ColumnReading, NOTHING } from "./column-reading";
import { guessRole } from "./column-role";
import { NO_VALUES } from "./column-values";
import type { FileFacts } from "./file-facts";
import { isMeterFrequency, readMeterFrequency } from "./meter-frequency";
import { isPulses, readPulses } from "./meter-pulses";
import { conflictQuestion, impossibleQuestion, roleQuestion, scaleQuestion, unitQuestion, volumeQuestion } from "./number-questions";
import { findPosition } from "./position-words";
import { settleReference } from "./pressure-reference";
import { readFlag } from "./read-flag";
import { rawSignal, readRaw } from "./read-raw";
import { readSentinels } from "./read-sentinels";
import { isUsual, settleScale } from "./settle-scale";
import { toldScale, unclearScale } from "./told-scale";
import { proposeUnit, unitOptions } from "./unit-proposal";

/** A column of numbers: what it stands for, its scale to SI, and what has to be asked. */
export function readNumbers(facts: ColumnFacts, file: FileFacts): ColumnReading {
  const role = facts.choice.role ?? facts.guess.role;
  const { sentinels, questions } = readSentinels(facts, file.around);
  const base: ColumnReading = { ...NOTHING, role, position: findPosition(facts.place), sentinels, questions };
  // "pulse count" is no count of a converter
  const raw =
    isPulses(facts, role) && /\bpuls|\bimpuls/.test(facts.words)
      ? null
      : rawSignal(facts, role, file.numbers === 1 ? file.preamble.filter((text) => text.length < 200).join(" | ") : "");
  if (raw !== null) return readRaw(base, facts, raw, file.preamble, file.rawCount <= 1);
  if (isMeterFrequency(facts)) return readMeterFrequency(base, facts, file);
  if (isPulses(facts, role)) return readPulses(base, facts, file);
  if (role === "running") return readFlag(base, facts, saying(facts, role, null));
  return readScaled(base, facts, file);
}

function readScaled(base: ColumnReading, facts: ColumnFacts, file: FileFacts): ColumnReading {
  const { role } = base;
  const assumed = facts.unit === null && role !== "other" ? proposeUnit(role, facts.values.high, file.system) : null;
  const scale = settleUnit(facts, role, file.around);
  const unit = asHead(role, scale?.unit ?? assumed);
  const asks = assumed !== null && role !== "current" && !(assumed.symbol === "Hz" && /\bfreq|frequen/.test(facts.words));
  const reference = settleReference(role, unit, facts, file.preamble);
  const counter =
    role === "volume" && (facts.values.rising || PER_ROW.test(facts.words) || (facts.choice.unit !== null && saysFlow(facts)))
      ? { kind: "totaliser" as const, cubicMetrePerCount: unit?.quantity === "volume" ? unit.factor : null }
      : null;
  return {
    ...base,
    unit: unit?.symbol ?? null,
    unitOptions: unitOptions(role, unit?.symbol ?? null),
    quantity: reference.quantity ?? quantityOf(unit),
    factor: (unit?.factor ?? 1) * reference.sign,
    offset: unit?.offset ?? 0,
    counter,
    ...saying(facts, role, assumed),
    questions: onePerId([
      ...base.questions,
      ...(asks ? [unitQuestion(facts, role, assumed)] : []),
      ...scaleQuestion(facts, scale?.open ?? [], scale?.line),
      ...conflictQuestion(facts),
      ...(role === "volume" && counter === null && saysFlow(facts) ? [volumeQuestion(facts, unit)] : []),
      ...reference.questions,
      ...roleQuestion(facts, role, file),
      ...impossibleQuestion(facts, role, unit),
    ]),
  };
}

/** The first question of an id stands: it is the one with the nearer reason. */
const onePerId = (questions: readonly ImportQuestion[]): ImportQuestion[] =>
  questions.filter(({ id }, i) => questions.findIndex((other) => other.id === id) === i);

/**
 * Whole numbers under a line that tells their scale ("Decimals: 2", "Gain = 0.01", "multiplied by 10"): scaled, unless only as they stand are they what a
 * pump room has; where both could be, it is asked.
 */
function settleUnit(facts: ColumnFacts, role: ChannelRole, preamble: readonly string[]): SettledUnit | null {
  const { unit, values, text } = facts;
  if (unit === null) return null;
  const settled = settleScale(unit, role, values);
  if (unit.other !== undefined || facts.unitFrom === "choice" || values.sorted.length === 0) return settled;
  const isWhole = values.sorted.every(Number.isInteger);
  const told = toldScale(text, preamble);
  const scaled = told === null || !isWhole ? null : scaledBy(told, unit.unit);
  if (scaled === null) return settleUnclear(facts, role, preamble, told) ?? settled;
  const byWords = settleScale({ ...unit, unit: scaled, other: unit.unit }, role, values);
  if (byWords.open.length === 0 || isUsual(unit.unit, role, values)) return byWords;
  // neither is usual: the words of the file stand, unless the other way round they make sense
  const inverse = scaledBy(1 / (told ?? 1), unit.unit);
  if (inverse === null || !isUsual(inverse, role, values)) return { unit: scaled, open: [] };
  return { unit: inverse, open: [inverse, scaled, unit.unit] };
}

/** `line`: the line above the table that leaves the scale open. */
type SettledUnit = ReturnType<typeof settleScale> & { readonly line?: string | undefined };

const scaledBy = (scale: number, { symbol }: Unit): Unit | null =>
  readScaledUnit(`x${Number(scale.toPrecision(6))} ${symbol}`)?.unit ?? null;

/**
 * A number beside words of a scale that may or may not hold: the words are not understood, or the numbers have decimals as if scaled already. Asked where
 * the scaled values are what a pump room has, and either the values are whole or as they stand they are none. Null where nothing is to be asked.
 */
function settleUnclear(facts: ColumnFacts, role: ChannelRole, preamble: readonly string[], told: number | null): SettledUnit | null {
  const { values, column } = facts;
  const unit = facts.unit?.unit ?? null;
  if (unit === null) return null;
  const unclear = told === null ? unclearScale([column.heading, column.unitsCell ?? ""], preamble) : null;
  const scales = told !== null ? [told] : unclear === null ? [] : [unclear.number, 1 / unclear.number];
  const usual = scales.flatMap((scale) => {
    const scaled = scale > 0 && scale !== 1 ? scaledBy(scale, unit) : null;
    return scaled !== null && isUsual(scaled, role, values) ? [scaled] : [];
  });
  if (usual.length === 0) return null;
  const stands = isUsual(unit, role, values);
  if (stands && (told !== null || !values.sorted.every(Number.isInteger))) return null;
  const open = stands ? [unit, ...usual] : [...usual, unit];
  return { unit: open[0], open, line: unclear?.line };
}

/** A heading that names a flow over a unit of volume. */
const saysFlow = ({ words, unit }: ColumnFacts): boolean =>
  unit?.unit.quantity === "volume" && guessRole(words, null, NO_VALUES).role === "flow";

/** A volume counted anew for each row. */
const PER_ROW =
  /\bused\b|\busage\b|\b(?:per|je|pro|par|por) \d|\binterval\b|\bincrement\w*\b|\bconsum\w*\b|\bdelta\b|\bverbrauch\w*\b|\bconsommation\b|\bverbruik\b/;

const UNIT_PLACES = { "units row": "row", cells: "cells", preamble: "above", heading: "heading", choice: "heading" } as const;

/** How sure, and why. */
function saying(
  { guess, choice, unit, unitFrom, values }: ColumnFacts,
  role: ChannelRole,
  assumed: Unit | null,
): { certainty: number; reason: ColumnReason } {
  const marks: ColumnReason = values.sentinels.length === 0 ? [] : [{ kind: "missing-marks", marks: values.sentinels }];
  const because = (certainty: number, ...reason: ColumnReason) => ({ certainty, reason: [...reason, ...marks] });
  if (choice.role !== null) return because(1, { kind: "chosen" });
  const named = unit === null ? null : ({ text: unit.text, from: UNIT_PLACES[unitFrom ?? "heading"] } as const);
  const guessed: ColumnReason = unit === null && assumed !== null ? [{ kind: "unit-guessed", unit: assumed.symbol }] : [];
  if (guess.by === "both") return because(0.97, { kind: "heading", role, unit: named }, ...guessed);
  if (guess.by === "words") {
    const certainty = unit === null && role !== "other" && role !== "running" ? 0.6 : 0.85;
    return because(
      certainty,
      role === "other" ? { kind: "heading-of-another", unit: named } : { kind: "heading", role, unit: named },
      ...guessed,
    );
  }
  if (guess.by === "unit") return because(0.8, { kind: "unit", role, unit: unit?.text ?? "" });
  if (guess.by === "rows") return { certainty: 0.9, reason: [{ kind: "counts-rows" }] };
  if (guess.by === "values") return { certainty: 0.75, reason: [{ kind: "zeros-and-ones" }] };
  return because(0.3, { kind: "nothing" });
}
