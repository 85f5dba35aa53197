import type { ChannelQuantity, ChannelRole } from "../../../shared/record/channel-role";
import { CHANNEL_ROLES } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { Unit } from "../../../shared/units/unit-table";
import { findUnit } from "../../../shared/units/unit-table";
import { readKFactor } from "./column-choices";
import type { ColumnFacts } from "./column-facts";
import { type ColumnReading, NOTHING, type RawSignal } from "./column-reading";
import { findPosition } from "./position-words";
import { settleReference } from "./pressure-reference";
import { rangeScale, readRange, type SignalRange, signalInText, signalOfValues } from "./raw-signal";
import { doubtfulSentinel } from "./sentinels";
import { proposeUnit, type UnitSystem, unitOptions } from "./unit-proposal";

/** What the other columns and the lines above the table say. */
export type FileFacts = {
  readonly preamble: readonly string[];
  readonly system: UnitSystem;
  readonly hasPressure: boolean;
  /** Columns that could be raw signals. */
  readonly rawCount: number;
};

/** A column of numbers: what it stands for, its scale to SI, and what has to be asked. */
export function readNumbers(facts: ColumnFacts, file: FileFacts): ColumnReading {
  const role = facts.choice.role ?? facts.guess.role;
  const { sentinels, questions } = readSentinels(facts);
  const base: ColumnReading = { ...NOTHING, role, position: findPosition(facts.place), sentinels, questions };
  const raw = rawSignal(facts, role);
  if (raw !== null) return readRaw(base, facts, raw, file);
  if (isPulses(facts, role)) return readPulses(base, facts, file);
  if (role === "running") return { ...base, quantity: "state", ...saying(facts, "running", null) };
  return readScaled(base, facts, file);
}

function readScaled(base: ColumnReading, facts: ColumnFacts, file: FileFacts): ColumnReading {
  const { role } = base;
  const assumed = facts.unit === null && role !== "other" ? proposeUnit(role, facts.values.high, file.system) : null;
  const unit = asHead(role, facts.unit?.unit ?? assumed);
  const asks = assumed !== null && role !== "current" && !(assumed.symbol === "Hz" && /\bfreq|frequen/.test(facts.words));
  const reference = settleReference(role, unit, facts, file.preamble);
  const counter =
    role === "volume" && (facts.values.rising || PER_ROW.test(facts.words))
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
    questions: [
      ...base.questions,
      ...(asks ? [unitQuestion(facts, role, assumed)] : []),
      ...reference.questions,
      ...roleQuestion(facts, role, file),
    ],
  };
}

/** A volume counted anew for each row. */
const PER_ROW = /\binterval\b|\bincrement\w*\b|\bconsum\w*\b|\bdelta\b|\bverbrauch\w*\b|\bconsommation\b|\bverbruik\b/;

/** A pressure in metres or feet is a head of water. */
function asHead(role: ChannelRole, unit: Unit | null): Unit | null {
  if (role !== "pressure" || unit?.quantity !== "length") return unit;
  return findUnit(`${unit.symbol}H2O`) ?? unit;
}

const quantityOf = (unit: Unit | null): ChannelQuantity =>
  unit === null ? "none" : unit.quantity === "pressure" ? "gaugePressure" : unit.quantity;

function readSentinels({ name, values, choice }: ColumnFacts): { sentinels: readonly number[]; questions: ImportQuestion[] } {
  if (choice.sentinel === "value") return { sentinels: [], questions: [] };
  const doubtful = values.rising || values.binary ? null : doubtfulSentinel(values.sorted);
  const sure = values.sentinels;
  if (doubtful === null) return { sentinels: sure, questions: [] };
  if (choice.sentinel === "missing") return { sentinels: [...sure, doubtful], questions: [] };
  const question: ImportQuestion = {
    id: `sentinel:${name}`,
    text: `"${name}" holds ${doubtful} again and again, away from its other values. Is that a reading or the mark of a missing one?`,
    options: ["value", "missing"],
    meaning: ["it is a reading", "it stands for no reading"],
    assumed: "value",
  };
  return { sentinels: sure, questions: [question] };
}

/** The raw signal a column holds, or null where its numbers are scaled already. */
function rawSignal({ unit, unitFrom, text, words, values, guess, choice }: ColumnFacts, role: ChannelRole): RawSignal | null {
  const named = signalInText(`${choice.rangeText ?? ""} | ${text}`);
  const electric = unit !== null && (unit.unit.quantity === "electricCurrent" || unit.unit.quantity === "voltage");
  if (unit !== null && !electric) {
    // "Pressure 4-20mA = 0-10 bar" has its unit from the range; whether the numbers are scaled shows in the numbers
    if (named === null || unitFrom === "choice" || unitFrom === "units row" || unitFrom === "cells") return null;
    const scale = named.kind.endsWith("mA") ? 1e3 : 1;
    const within = values.low >= 0.85 * named.low * scale && values.high <= 1.12 * named.high * scale;
    return within && readRange(text) !== null && !isBracketed(text, unit.text) ? named : null;
  }
  if (named !== null && (electric || unit === null)) return fitsSignal(named, unit?.unit ?? null, values.low, values.high) ? named : null;
  if (role === "power" || role === "running" || (role === "other" && guess.by === "words")) return null;
  if (
    role === "current" &&
    (unit?.unit.symbol !== "mA" || values.low < 3.4 || values.high > 22.5 || /motor|pump|moteur|motore|pomp|bomba/.test(words))
  )
    return null;
  return signalOfValues(unit, `${words} ${text.toLowerCase()}`, values);
}

const isBracketed = (text: string, unit: string) => text.includes(`(${unit})`) || text.includes(`[${unit}]`);

/** The numbers lie within what such a signal can be, in its own unit. */
function fitsSignal(signal: RawSignal, unit: Unit | null, low: number, high: number): boolean {
  if (signal.kind === "counts") return true;
  const factor = unit?.factor ?? (signal.kind.endsWith("mA") ? 1e-3 : 1);
  return low * factor >= -0.2 * signal.high && high * factor <= 1.25 * signal.high;
}

function readRaw(base: ColumnReading, facts: ColumnFacts, raw: RawSignal, file: FileFacts): ColumnReading {
  const { name, choice, guess, unit } = facts;
  const electric = unit !== null && (unit.unit.quantity === "electricCurrent" || unit.unit.quantity === "voltage");
  const unitOfSignal = electric ? unit.unit.factor : raw.kind.endsWith("mA") ? 1e-3 : 1;
  const range = choice.range ?? readRange(facts.text) ?? (file.rawCount <= 1 ? rangeInPreamble(file.preamble) : null);
  if (range === null) {
    const quantity: ChannelQuantity = raw.kind === "counts" ? "none" : raw.kind.endsWith("mA") ? "electricCurrent" : "voltage";
    const role = choice.role ?? (guess.by === "unit" || guess.by === "none" || base.role === "current" ? "other" : base.role);
    const reason = `a raw ${raw.kind} signal; nothing says which range it stands for`;
    return {
      ...base,
      role,
      raw,
      unit: unit?.unit.symbol ?? null,
      quantity,
      factor: unitOfSignal,
      certainty: 0.6,
      reason,
      questions: [...base.questions, rangeQuestion(name, raw, role)],
    };
  }
  const byRange = guessRole(range.found.unit);
  const role = choice.role ?? (base.role === "other" || base.role === "current" || guess.by === "unit" ? byRange : base.role);
  const head = asHead(role, range.found.unit) ?? range.found.unit;
  const reference = settleReference(role, head, { ...facts, unit: range.found }, file.preamble);
  return {
    ...base,
    role,
    raw,
    unit: head.symbol,
    unitOptions: unitOptions(role, head.symbol),
    quantity: reference.quantity ?? quantityOf(head),
    ...rangeScale(raw, unitOfSignal, { ...range, found: { ...range.found, unit: head } }),
    certainty: 0.95,
    reason: `a raw ${raw.kind} signal that stands for ${range.low} to ${range.high} ${head.symbol}`,
  };
}

function guessRole(unit: Unit): ChannelRole {
  const q = unit.quantity;
  if (q === "length") return "level";
  if (q === "flow" || q === "volume" || q === "temperature" || q === "power") return q;
  if (q === "frequency" || q === "rotation") return "speed";
  return q === "pressure" || q === "gaugePressure" || q === "absolutePressure" ? "pressure" : "other";
}

const rangeInPreamble = (preamble: readonly string[]): SignalRange | null => {
  for (const line of preamble) {
    const range =
      /range|scal|span|bereich|etendue|étendue|gamme|plage|rango|faixa|escala|campo|bereik|messbereich|transducer|sensor|transmitter|\bma\b/i.test(
        line,
      )
        ? readRange(line)
        : null;
    if (range !== null) return range;
  }
  return null;
};

const rangeQuestion = (name: string, raw: RawSignal, role: ChannelRole): ImportQuestion => ({
  id: `range:${name}`,
  text: `"${name}" is a raw ${raw.kind} signal${role === "other" ? "" : ` of a ${role}`}. Which range does it stand for?`,
  options: role === "flow" ? ["0..100 L/min", "0..10 m3/h", "0..100 gpm"] : ["0..10 bar", "0..16 bar", "0..100 psi", "0..150 psi"],
  meaning: [],
  assumed: "none",
});

function isPulses({ text, unit, words }: ColumnFacts, role: ChannelRole): boolean {
  if (unit !== null && unit.unit.quantity !== "fraction") return false;
  return (
    (role === "volume" || role === "flow" || role === "other") &&
    /\bpuls(?:e|es|os|en)?\b|\bimpuls\w*\b|\bimp\b|\bticks?\b/i.test(`${words} ${text}`)
  );
}

/** Pulses become a volume by the meter's K-factor, asked where nothing names it. */
function readPulses(base: ColumnReading, facts: ColumnFacts, file: FileFacts): ColumnReading {
  const told = readKFactor(facts.text) ?? kFactorInPreamble(file.preamble);
  const perPulse = facts.choice.kFactor ?? told;
  const question: ImportQuestion = {
    id: `k-factor:${facts.name}`,
    text: `"${facts.name}" counts pulses of a meter. How much water is one pulse?`,
    options: ["1 L/pulse", "10 L/pulse", "1 pulses/gal", "10 gal/pulse"],
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

function unitQuestion({ name }: ColumnFacts, role: ChannelRole, assumed: Unit): ImportQuestion {
  return {
    id: `unit:${name}`,
    text: `In which unit is "${name}"? The file names none; ${assumed.symbol} is likeliest by the size of its values.`,
    options: unitOptions(role, assumed.symbol),
    meaning: [],
    assumed: assumed.symbol,
  };
}

/** Asked where the heading says nothing at all, or where it is not understood and the file shows no pressure otherwise. */
function roleQuestion({ column, name, guess, choice, unit, values }: ColumnFacts, role: ChannelRole, file: FileFacts): ImportQuestion[] {
  if (choice.role !== null || role !== "other" || guess.by !== "none" || values.low === values.high) return [];
  if (!guess.generic && (file.hasPressure || unit !== null || /[([]/.test(column.heading))) return [];
  return [
    {
      id: `column-role:${name}`,
      text: `What does "${name}" hold? Neither its heading nor a unit says it.`,
      options: CHANNEL_ROLES.filter((r) => r !== "time"),
      meaning: [],
      assumed: "other",
    },
  ];
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
  if (guess.by === "values") return { certainty: 0.75, reason: `it holds only 0 and 1 beside the name of a machine` };
  return { certainty: 0.3, reason: `neither heading nor unit say what it holds${marks}` };
}
