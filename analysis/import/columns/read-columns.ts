import type { ChannelQuantity } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { type ColumnProfile, foldHeading, profileColumn } from "../clock/column-profile";
import { elapsedUnit, isTimeHeading } from "../clock/number-clock";
import type { ImportChoices } from "../import-log";
import { channelNames } from "./channel-name";
import { type ColumnChoice, choiceFor } from "./column-choices";
import type { ColumnReading, ColumnText, FileContext } from "./column-reading";
import { guessRole } from "./column-role";
import { type ColumnValues, columnValues } from "./column-values";
import { findPosition } from "./position-words";
import { rangeScale, readRange, signalInText, signalOfValues } from "./raw-signal";
import { stateWords } from "./running-words";
import { type FoundUnit, findReference, unitInHeading, unitOfCell, wholeUnit } from "./unit-from-text";

/**
 * Says what each column stands for and how its numbers become SI, with a certainty and a reason.
 * @throws ImportError unknown-answer where a choice names a role, unit, range or factor that is not understood
 */
export function readColumns(columns: readonly ColumnText[], context: FileContext, choices: ImportChoices): readonly ColumnReading[] {
  const names = channelNames(columns);
  return columns.map((column, k) => readColumn(column, names[k], context, choiceFor(names[k], column.heading, choices)));
}

const NOTHING: ColumnReading = {
  role: "other",
  position: null,
  unit: null,
  unitOptions: [],
  quantity: "none",
  factor: 1,
  offset: 0,
  raw: null,
  words: new Map(),
  sentinels: [],
  counter: null,
  onChange: false,
  certainty: 0.5,
  reason: "",
  questions: [],
};

function readColumn(column: ColumnText, name: string, context: FileContext, choice: ColumnChoice): ColumnReading {
  const profile = profileColumn(column, context.decimal, context.thousands);
  if (choice.role === "time" || (choice.role === null && isTime(profile)))
    return { ...NOTHING, role: "time", certainty: 0.95, reason: choice.role === null ? "its cells are times" : "as you chose" };
  const words = spacedWords(column);
  const values = columnValues(column, context);
  if (values.numbers.length === 0 && values.texts.length > 0) return readText(column, words, values, choice);
  return readNumbers(column, name, words, values, context, choice);
}

function isTime(profile: ColumnProfile): boolean {
  if (profile.share < 0.6) return false;
  if (["stamp", "date", "time", "duration", "half"].includes(profile.kind)) return true;
  return (
    profile.kind === "number" && profile.falls <= 0.05 * profile.rises && (elapsedUnit(profile) !== null || isTimeHeading(profile.words))
  );
}

/** Folded heading with digits set apart: "Pressure1" is "pressure 1". */
const spacedWords = (column: ColumnText) => foldHeading({ ...column, unitsCell: null }).replace(/([a-z])(\d)/g, "$1 $2");

function readText(_column: ColumnText, words: string, values: ColumnValues, choice: ColumnChoice): ColumnReading {
  const states = stateWords(values.texts);
  const guess = guessRole(words, null);
  if (states === null || (guess.role !== "running" && guess.role !== "other" && choice.role === null && guess.by !== "none"))
    return { ...NOTHING, role: choice.role ?? "other", certainty: 0.9, reason: "its cells are words" };
  return {
    ...NOTHING,
    role: choice.role ?? (guess.role === "other" && guess.by === "words" ? "other" : "running"),
    position: findPosition(words),
    quantity: "state",
    words: states,
    certainty: guess.role === "running" ? 0.95 : 0.7,
    reason: `its cells are words for on and off`,
  };
}

function readNumbers(
  column: ColumnText,
  name: string,
  words: string,
  values: ColumnValues,
  _context: FileContext,
  choice: ColumnChoice,
): ColumnReading {
  const found = choice.unit ?? findColumnUnit(column);
  const guess = guessRole(words, found?.unit ?? null);
  const role = choice.role ?? guess.role;
  const named = signalInText(`${column.heading} ${column.unitsCell ?? ""}`);
  const isLoop = role !== "current" || guess.by === "unit";
  const raw =
    choice.unit !== null && found?.unit.quantity !== "electricCurrent"
      ? null
      : (named ?? (isLoop && role !== "power" && role !== "running" ? signalOfValues(found, words, values) : null));
  const base = { ...NOTHING, role, position: findPosition(words), sentinels: values.sentinels, raw };
  if (raw !== null) return readRaw(base, column, name, choice, found, guess.by);
  const scaled = scale(role, found, column, choice);
  const questions: ImportQuestion[] = [];
  if (found === null && needsUnit(role)) questions.push(unitQuestion(name, role));
  return {
    ...base,
    ...scaled,
    unit: found?.unit.symbol ?? null,
    counter:
      role === "volume" ? { kind: "totaliser", cubicMetrePerCount: found?.unit.quantity === "volume" ? found.unit.factor : null } : null,
    certainty: guess.by === "both" ? 0.97 : guess.by === "words" ? 0.8 : guess.by === "unit" ? 0.8 : 0.4,
    reason: reasonOf(guess.by, role, found),
    questions,
  };
}

function findColumnUnit(column: ColumnText): FoundUnit | null {
  const cell = column.unitsCell === null ? null : wholeUnit(column.unitsCell);
  if (cell !== null) return cell;
  const heading = unitInHeading(column.heading);
  if (heading !== null) return heading;
  for (const text of column.sample.slice(0, 50)) {
    const stuck = unitOfCell(text);
    if (stuck !== null) return stuck;
  }
  return null;
}

function readRaw(
  base: ColumnReading,
  column: ColumnText,
  name: string,
  choice: ColumnChoice,
  found: FoundUnit | null,
  by: string,
): ColumnReading {
  const raw = base.raw;
  if (raw === null) return base;
  const range = choice.range ?? readRange(`${column.heading} ${column.unitsCell ?? ""}`);
  const unitOfSignal =
    found?.unit.quantity === "electricCurrent" || found?.unit.quantity === "voltage"
      ? found.unit.factor
      : raw.kind.endsWith("mA")
        ? 1e-3
        : 1;
  if (range === null) {
    const question: ImportQuestion = {
      id: `range:${name}`,
      text: `"${name}" is a raw ${raw.kind} signal. Which range does it stand for?`,
      options: ["0..10 bar", "0..16 bar", "0..100 psi", "0..150 psi"],
      meaning: [],
      assumed: "none: the signal is kept as it is",
    };
    const quantity: ChannelQuantity = raw.kind === "counts" ? "none" : raw.kind.endsWith("mA") ? "electricCurrent" : "voltage";
    return {
      ...base,
      unit: found?.unit.symbol ?? null,
      quantity,
      factor: unitOfSignal,
      certainty: 0.6,
      reason: `a raw ${raw.kind} signal without a range`,
      questions: [question],
    };
  }
  const role = base.role === "other" || by === "unit" ? guessRole("", range.found.unit).role : base.role;
  return {
    ...base,
    role,
    unit: range.found.unit.symbol,
    quantity: quantityOf(role, range.found, column, choice),
    ...rangeScale(raw, unitOfSignal, range),
    certainty: 0.95,
    reason: `a raw ${raw.kind} signal for ${range.low} to ${range.high} ${range.found.unit.symbol}`,
  };
}

function scale(role: ColumnReading["role"], found: FoundUnit | null, column: ColumnText, choice: ColumnChoice) {
  if (role === "running") return { quantity: "state" as const, factor: 1, offset: 0 };
  if (found === null) return { quantity: "none" as const, factor: 1, offset: 0 };
  return { quantity: quantityOf(role, found, column, choice), factor: found.unit.factor, offset: found.unit.offset };
}

function quantityOf(role: ColumnReading["role"], found: FoundUnit, column: ColumnText, choice: ColumnChoice): ChannelQuantity {
  if (found.unit.quantity !== "pressure") return found.unit.quantity;
  const reference = choice.reference ?? found.reference ?? findReference(column.heading);
  return role === "pressure" && reference === "absolute" ? "absolutePressure" : "gaugePressure";
}

const needsUnit = (role: ColumnReading["role"]) =>
  role === "pressure" ||
  role === "flow" ||
  role === "temperature" ||
  role === "level" ||
  role === "volume" ||
  role === "speed" ||
  role === "power";

function unitQuestion(name: string, role: ColumnReading["role"]): ImportQuestion {
  return { id: `unit:${name}`, text: `In which unit is "${name}" (${role})?`, options: [], meaning: [], assumed: "none" };
}

function reasonOf(by: string, role: ColumnReading["role"], found: FoundUnit | null): string {
  if (by === "both") return `its heading says ${role} and its unit is ${found?.text}`;
  if (by === "words") return `its heading says ${role}`;
  if (by === "unit") return `its unit is ${found?.text}`;
  return "neither heading nor unit say what it is";
}
