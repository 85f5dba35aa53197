import { ImportError } from "../../../shared/problems/import-problem";
import type { ChannelRole } from "../../../shared/record/channel-role";
import { CHANNEL_ROLES } from "../../../shared/record/channel-role";
import type { ImportChoices } from "../import-log";
import { readRange, type SignalRange } from "./raw-signal";
import { type FoundUnit, wholeUnit, writtenUnit } from "./unit-from-text";

/** What a person decided about one column, understood. */
export type ColumnChoice = {
  readonly role: ChannelRole | null;
  readonly unit: FoundUnit | null;
  readonly range: SignalRange | null;
  /** The answer to the range as written: it may name the signal too ("0-10 V = 0..10 bar"). */
  readonly rangeText: string | null;
  readonly reference: "gauge" | "absolute" | "vacuum" | null;
  /** m3 per pulse */
  readonly kFactor: number | null;
  readonly sentinel: "missing" | "value" | null;
  /** The word of two that says that the pump runs; null where nobody said it. */
  readonly onWord: string | null;
};

/** What a column stands for may be more than its role: a running flag by one of its words, or the names of devices whose rows are all meant or some. */
export const RUNNING_AT = "running: ";
export const ALL_ROWS = "all";
export const ROWS_OF = "only ";

/** @throws ImportError unknown-answer where a role, unit, range or factor is not understood */
export function choiceFor(name: string, heading: string, choices: ImportChoices): ColumnChoice {
  const answer = (kind: string) => choices.answers[`${kind}:${name}`] ?? null;
  const column = choices.columns.find((c) => c.heading === name) ?? choices.columns.find((c) => c.heading === heading) ?? null;
  const role = answer("column-role");
  const isOfRows = role !== null && (role === ALL_ROWS || role.startsWith(ROWS_OF));
  const onWord = role?.startsWith(RUNNING_AT) === true ? role.slice(RUNNING_AT.length) : null;
  return {
    role: column?.role ?? (isOfRows ? null : onWord !== null ? "running" : oneOf(`column-role:${name}`, role, CHANNEL_ROLES)),
    unit: understood(`unit:${name}`, column?.unit ?? answer("unit"), writtenUnit, ["bar", "psi", "L/min"]),
    range: understood(`range:${name}`, answer("range"), readRange, ["0..10 bar", "0..100 psi"]),
    rangeText: answer("range"),
    reference: oneOf(`reference:${name}`, answer("reference"), ["gauge", "absolute", "vacuum"]),
    kFactor: understood(`k-factor:${name}`, answer("k-factor"), readKFactor, ["450 pulses/gal", "2.5 L/pulse"]),
    sentinel: oneOf(`sentinel:${name}`, answer("sentinel"), ["missing", "value"]),
    onWord,
  };
}

function understood<T>(question: string, text: string | null, read: (text: string) => T | null, options: readonly string[]): T | null {
  if (text === null || text === "") return null;
  const value = read(text);
  if (value === null) throw new ImportError({ id: "unknown-answer", question, answer: text, options });
  return value;
}

function oneOf<T extends string>(question: string, text: string | null, options: readonly T[]): T | null {
  return understood(question, text, (t) => options.find((option) => option === t) ?? null, options);
}

const PULSE = "(?:pulses?|pulsos?|puls|imp(?:ulse?n?|ulsions?|ulsos?|ulsi)?|ticks?|counts?|p)";
const NUMBER = "(\\d+(?:[.,]\\d+)?)";
const PER_VOLUME = new RegExp(`${NUMBER}\\s*${PULSE}?\\s*(?:/|per|pro|par|por|je|=)\\s*(\\d*)\\s*([a-z³³ .]+\\d?)`, "i");
const PER_PULSE = new RegExp(`${NUMBER}\\s*([a-zµ³]+\\d?)\\s*(?:/|per|pro|par|por|je)\\s*${PULSE}\\b`, "i");

/** "1 pulse = 10 L", "One pulse is 10 litres", "1 Impuls entspricht 10 l". */
const ONE_PULSE = new RegExp(
  `(?<![\\p{L}\\d.,])(?:1|one|ein|une?|uno|um|een)\\s*${PULSE}\\s*(?:=|is|equals|ist|sind|entspricht|vaut|est|correspond à|es|equivale a|é|corresponde a|è|corrisponde a|komt overeen met)\\s*${NUMBER}\\s*([a-z³]+\\d?)`,
  "iu",
);
/** "Pulse weight,0.01 m3", "Impulswertigkeit: 10 Liter". */
const WEIGHT = new RegExp(
  `(?:puls|imp)\\p{L}*[ -]?(?:weight|value|volume|size|wert\\p{L}*)?["']?\\s*[:=;,\\t]\\s*["']?${NUMBER}\\s*([a-z³]+\\d?)(?![\\p{L}/])`,
  "iu",
);
/** "Litres per pulse: 10". */
const UNIT_PER_PULSE = new RegExp(
  `(?<!\\p{L})([a-z³]+\\d?)\\s*(?:/|per|pro|par|por|je)\\s*${PULSE}["']?\\s*[:=;,\\t]\\s*["']?${NUMBER}`,
  "iu",
);

/** Cubic metres per pulse: "450 pulses/gal", "2.5 L/pulse", "10 l/Imp", "1 pulse = 10 L"; null where it is none. */
export function readKFactor(text: string): number | null {
  const perPulse = PER_PULSE.exec(text);
  if (perPulse !== null) return volumeOf(perPulse[1], perPulse[2]);
  const equal = ONE_PULSE.exec(text);
  if (equal !== null) return volumeOf(equal[1], equal[2]);
  const named = WEIGHT.exec(text) ?? null;
  if (named !== null) return volumeOf(named[1], named[2]);
  const unitFirst = UNIT_PER_PULSE.exec(text);
  if (unitFirst !== null) return volumeOf(unitFirst[2], unitFirst[1]);
  const perVolume = PER_VOLUME.exec(text);
  if (perVolume === null) return null;
  const volume = volumeOf(perVolume[2] === "" ? "1" : perVolume[2], perVolume[3].trim());
  const count = Number(perVolume[1].replace(",", "."));
  return volume === null || !(count > 0) ? null : volume / count;
}

function volumeOf(amount: string, unit: string): number | null {
  const found = wholeUnit(unit);
  const value = Number(amount.replace(",", "."));
  return found === null || found.unit.quantity !== "volume" || !(value > 0) ? null : value * found.unit.factor;
}
