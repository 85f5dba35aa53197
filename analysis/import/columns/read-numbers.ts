import type { ChannelRole } from "../../../shared/record/channel-role";
import { CHANNEL_ROLES } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { readScaledUnit } from "../../../shared/units/scaled-unit";
import { findUnit, type Unit } from "../../../shared/units/unit-table";
import { firstUnread } from "../statement-words";
import { readKFactor } from "./column-choices";
import type { ColumnFacts } from "./column-facts";
import { asHead, quantityOf } from "./column-quantity";
import { type ColumnReading, NOTHING } from "./column-reading";
import { guessRole, saysOff } from "./column-role";
import { NO_VALUES } from "./column-values";
import { toldSense } from "./flag-sense";
import { endsInDoubt } from "./last-letter";
import { findPosition } from "./position-words";
import { settleReference } from "./pressure-reference";
import { rawSignal, readRaw } from "./read-raw";
import { readSentinels } from "./read-sentinels";
import { MACHINE_FACTS, MACHINE_WORDS } from "./role-words";
import { isImpossible, isUsual, settleScale } from "./settle-scale";
import { toldScale, unclearScale } from "./told-scale";
import { unitInHeading } from "./unit-from-text";
import { proposeUnit, type UnitSystem, unitOptions } from "./unit-proposal";

/** What the other columns and the lines above the table say. */
export type FileFacts = {
  readonly preamble: readonly string[];
  /** Lines above and below the rows. */
  readonly around: readonly string[];
  readonly system: UnitSystem;
  readonly hasPressure: boolean;
  /** Columns of which it is known what they hold. */
  readonly known: number;
  /** Columns of numbers. */
  readonly numbers: number;
  /** Columns in a unit of length whose headings do not say of what. */
  readonly nameless: number;
  /** Columns that could be raw signals. */
  readonly rawCount: number;
};

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
  if (isPulses(facts, role)) return readPulses(base, facts, file);
  if (role === "running") return readFlag(base, facts);
  return readScaled(base, facts, file);
}

/** 1 while the machine runs; a heading or a line above the table may say that it is 1 while it stands. */
function readFlag(base: ColumnReading, facts: ColumnFacts): ColumnReading {
  const factor = facts.values.low === -1 ? -1 : 1;
  const said = saying(facts, "running", null);
  const told = toldSense(facts.text);
  const stands = told === null ? saysOff(facts.words) : told === 0;
  if (!facts.values.binary || !stands) return { ...base, quantity: "state", factor, ...said };
  return { ...base, quantity: "state", factor: -factor, offset: 1, ...said, reason: `${said.reason}; 1 says that it stands` };
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
    factor: unit?.factor ?? 1,
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

/** "Flow (L)" that does not rise: litres of each interval, or a flow whose "per" was left out. */
const volumeQuestion = ({ name }: ColumnFacts, unit: Unit | null): ImportQuestion => {
  const symbol = unit?.symbol ?? "";
  return {
    id: `unit:${name}`,
    text: `"${name}" speaks of a flow and names ${symbol}, a volume, but does not rise. What does a row hold?`,
    options: [symbol, ...["min", "s", "h"].map((time) => `${symbol}/${time}`).filter((per) => findUnit(per) !== null)],
    meaning: [`the ${symbol} counted since the row before`],
    assumed: symbol,
  };
};

/** A volume counted anew for each row. */
const PER_ROW =
  /\bused\b|\busage\b|\b(?:per|je|pro|par|por) \d|\binterval\b|\bincrement\w*\b|\bconsum\w*\b|\bdelta\b|\bverbrauch\w*\b|\bconsommation\b|\bverbruik\b/;

function isPulses({ text, unit, words }: ColumnFacts, role: ChannelRole): boolean {
  if (unit !== null && unit.unit.quantity !== "fraction") return false;
  return (
    (role === "volume" || role === "flow" || role === "other") &&
    /\bpuls(?:e|es|os|en)?\b|\bimpuls\w*\b|\bimp\b|\bticks?\b/i.test(`${words} ${text}`)
  );
}

/** Pulses become a volume by the meter's K-factor, asked where nothing names it. */
function readPulses(base: ColumnReading, facts: ColumnFacts, file: FileFacts): ColumnReading {
  const told = readKFactor(facts.text) ?? kFactorInPreamble(file.around);
  const unclear = told === null ? firstUnread("pulse", file.around, (line) => readKFactor(line) !== null) : null;
  const proposals = unclear === null || !(unclear.number > 0) ? [] : [`${unclear.number} L/pulse`, `${unclear.number} pulses/L`];
  const perPulse = facts.choice.kFactor ?? told;
  const question: ImportQuestion = {
    id: `k-factor:${facts.name}`,
    text: `"${facts.name}" counts pulses of a meter. How much water is one pulse?${unclear === null ? "" : ` "${unclear.line}" may say it.`}`,
    options: [...new Set([...proposals, "1 L/pulse", "10 L/pulse", "1 pulses/gal", "10 gal/pulse"])],
    meaning: [],
    assumed: "none",
  };
  return {
    ...base,
    role: facts.choice.role ?? "volume",
    unit: "pulses",
    quantity: perPulse === null ? "none" : "volume",
    factor: perPulse ?? 1,
    counter: { kind: "pulses", cubicMetrePerCount: perPulse },
    certainty: perPulse === null ? 0.6 : 0.9,
    reason:
      perPulse === null
        ? "it counts pulses; nothing says how much water one is"
        : `it counts pulses of ${Number((perPulse * 1000).toPrecision(4))} L`,
    questions: [...base.questions, ...(perPulse === null ? [question] : [])],
  };
}

const kFactorInPreamble = (preamble: readonly string[]): number | null => {
  for (const line of preamble) {
    const factor = /puls|imp|k[- ]?fac|k[- ]?fakt|facteur k|factor k|fator k|fattore k/i.test(line) ? readKFactor(line) : null;
    if (factor !== null) return factor;
  }
  return null;
};

function unitQuestion({ name, column }: ColumnFacts, role: ChannelRole, assumed: Unit): ImportQuestion {
  const options = unitOptions(role, assumed.symbol);
  return {
    id: `unit:${name}`,
    text: `In which unit is "${name}"? The file names none; ${assumed.symbol} is likeliest by the size of its values.`,
    options: endsInDoubt(column.heading) ? [...options, "A"] : options,
    meaning: [],
    assumed: assumed.symbol,
  };
}

/** One place of the file says one unit and another a different one of the same quantity: the units row and the heading, or either and the lines above. */
function conflictQuestion(facts: ColumnFacts): ImportQuestion[] {
  const { name, column, unit, unitFrom, unitAbove } = facts;
  if (unit === null || (unitFrom !== "units row" && unitFrom !== "heading")) return [];
  const heading = unitFrom === "units row" ? unitInHeading(column.heading) : null;
  const byHeading = heading !== null && disagree(unit.unit, heading.unit);
  const other = byHeading ? heading : unitAbove;
  if (other === null || !disagree(unit.unit, other.unit)) return [];
  const here = unitFrom === "heading" ? "heading" : "row of units";
  return [
    {
      id: `unit:${name}`,
      text: byHeading
        ? `The heading of "${name}" says ${other.text}, the row of units says ${unit.text}. Which is it?`
        : `The ${here} of "${name}" says ${unit.text}, the lines above the table say ${other.text}. Which is it?`,
      options: [unit.unit.symbol, other.unit.symbol],
      meaning: [],
      assumed: unit.unit.symbol,
    },
  ];
}

/** Units of one quantity with values of their own; a pressure is one, whatever its reference. A scale beside the unit is asked for itself. */
const disagree = (a: Unit, b: Unit): boolean =>
  familyOf(a) === familyOf(b) && a.factor !== b.factor && findUnit(a.symbol) !== null && findUnit(b.symbol) !== null;

const familyOf = ({ quantity }: Unit): string => (/pressure/i.test(quantity) ? "pressure" : quantity);

/** A scale beside the unit may say what one step is, or what the numbers were multiplied by. */
function scaleQuestion({ name, unit }: ColumnFacts, open: readonly Unit[], line: string | undefined): ImportQuestion[] {
  if (open.length === 0) return [];
  return [
    {
      id: `unit:${name}`,
      text: `"${name}" names "${unit?.text}"${line === undefined ? "" : `, and "${line}" may speak of a scale`}: what is one step of its numbers?`,
      options: open.map(({ symbol }) => symbol),
      meaning: open.map(({ symbol }) => `a 1 in the file is ${/^\d/.test(symbol) ? symbol : `1 ${symbol}`}`),
      assumed: open[0].symbol,
    },
  ];
}

/** Values that no pump room has in the unit that the file names: the unit stands, and is asked. */
function impossibleQuestion({ name, values, unitFrom, place }: ColumnFacts, role: ChannelRole, unit: Unit | null): ImportQuestion[] {
  if (unit === null || unitFrom === "choice" || !isImpossible(unit, role, values, findPosition(place))) return [];
  const fitting = unitOptions(role, null).filter((symbol) => isUsual(findUnit(symbol) ?? unit, role, values));
  return [
    {
      id: `unit:${name}`,
      text: `"${name}" is in ${unit.symbol} by the file, but values about ${Number(values.median.toPrecision(3))} ${unit.symbol} are none of a pumped water system. In which unit is it?`,
      options: [unit.symbol, ...fitting.filter((symbol) => symbol !== unit.symbol)],
      meaning: [],
      assumed: unit.symbol,
    },
  ];
}

/** Asked where the heading says nothing at all, or where it is not understood and either the file shows no pressure otherwise or the column may well be a channel. */
function roleQuestion(facts: ColumnFacts, role: ChannelRole, file: FileFacts): ImportQuestion[] {
  const { column, name, guess, choice, unit, values } = facts;
  if (choice.role !== null || role !== "other" || guess.by !== "none" || !(values.low < values.high)) return [];
  const may = mayBeChannel(facts, file);
  // brackets hold a unit of another thing, unless nobody here reads the letters at all
  const saysUnit = /[([]/.test(column.heading) && (file.known > 0 || /[a-z]/i.test(column.heading));
  if (!may && !guess.generic && (file.hasPressure || unit !== null || saysUnit)) return [];
  return [
    {
      id: `column-role:${name}`,
      text: `What does "${name}" hold? ${unit === null ? "Neither its heading nor a unit says it" : `It is in ${unit.text}, its heading does not say of what`}.`,
      options: CHANNEL_ROLES.filter((r) => r !== "time"),
      meaning: [],
      assumed: "other",
    },
  ];
}

/** More lengths than this in one file are those of another thing: no pump room has so many levels; common practice, no source. */
const MOST_LEVELS = 4;

/** A length may be a level or a head; what stands under the name of a machine alone may be its speed. */
function mayBeChannel({ column, words, unit, values }: ColumnFacts, { nameless }: FileFacts): boolean {
  if (unit !== null && unit.unit.quantity === "length") return nameless <= MOST_LEVELS;
  if (!MACHINE_WORDS.test(words) || MACHINE_FACTS.test(words) || values.rising) return false;
  return unit === null ? !/[([](?!.*\/\s*m)/.test(column.heading) : unit.unit.quantity === "fraction";
}

/** How sure, and why, in a sentence for the page. */
function saying(
  { guess, choice, unit, unitFrom, values }: ColumnFacts,
  role: ChannelRole,
  assumed: Unit | null,
): { certainty: number; reason: string } {
  const marks = values.sentinels.length === 0 ? "" : `; ${values.sentinels.join(" and ")} stands for no reading`;
  if (choice.role !== null) return { certainty: 1, reason: `as you chose${marks}` };
  const where =
    unitFrom === "units row"
      ? "in the units row"
      : unitFrom === "cells"
        ? "beside its values"
        : unitFrom === "preamble"
          ? "above the table"
          : "in its heading";
  const named =
    unit === null
      ? assumed === null
        ? ""
        : `; the unit ${assumed.symbol} is a guess from the size of its values`
      : `, with ${unit.text} ${where}`;
  if (guess.by === "both") return { certainty: 0.97, reason: `its heading says ${role}${named}${marks}` };
  if (guess.by === "words")
    return {
      certainty: unit === null && role !== "other" && role !== "running" ? 0.6 : 0.85,
      reason: `its heading says ${role === "other" ? "that it is none of the quantities read" : role}${named}${marks}`,
    };
  if (guess.by === "unit") return { certainty: 0.8, reason: `its unit ${unit?.text ?? ""} is one of ${role}${marks}` };
  if (guess.by === "rows") return { certainty: 0.9, reason: "it rises by one from row to row: a count of the rows" };
  if (guess.by === "values") return { certainty: 0.75, reason: `it holds only 0 and 1 beside the name of a machine` };
  return { certainty: 0.3, reason: `neither heading nor unit say what it holds${marks}` };
}
