import { ImportError } from "../../../shared/problems/import-problem";
import { type ColumnProfile, profileColumn } from "../clock/column-profile";
import { elapsedUnit, isTimeHeading } from "../clock/number-clock";
import type { ImportChoices } from "../import-log";
import { isMissing } from "../number-format";
import { channelNames } from "./channel-name";
import { type ColumnChoice, choiceFor, RUNNING_AT } from "./column-choices";
import { type ColumnFacts, gatherFacts, spacedWords } from "./column-facts";
import { type ColumnReading, type ColumnText, type FileContext, NOTHING } from "./column-reading";
import { guessRole, saysOff, saysOn } from "./column-role";
import { type ColumnValues, columnValues } from "./column-values";
import type { FileFacts } from "./file-facts";
import { lastLetters } from "./last-letter";
import { findPosition } from "./position-words";
import { channelLines, onlyChannelLine, writesOnChange } from "./preamble-channels";
import { readNumbers } from "./read-numbers";
import { MACHINE_FACTS, MACHINE_WORDS } from "./role-words";
import { isTick, saysMachine, stateWords, twoWords } from "./running-words";
import { tellApart } from "./tell-apart";
import { unitSystem } from "./unit-proposal";

/**
 * Says what each column stands for and how its numbers become SI, with a certainty and a reason. Words of the heading, the units row and the
 * lines above the table count first, then the unit, then the values themselves; what a careful colleague would have to ask is a question.
 * @throws ImportError unknown-answer where a choice names a role, unit, range or factor that is not understood
 */
export function readColumns(columns: readonly ColumnText[], context: FileContext, choices: ImportChoices): readonly ColumnReading[] {
  const names = channelNames(columns);
  // a line of thousands of letters is nothing that a person would read
  const preamble = context.preamble.filter((line) => line.length <= 1000);
  const lines = channelLines(columns, preamble);
  const onChange = writesOnChange(preamble);
  const times = columns.map((column) => isTime(profileColumn(column, context.decimal, context.thousands)));
  const alone = times.filter((isTimes) => !isTimes).length === 1;
  const letters = lastLetters(columns);
  const begun = columns.map((column, k): ColumnReading | ColumnFacts => {
    const choice = choiceFor(names[k], column.heading, choices);
    if (choice.role === "time") return { ...timeReading, reason: [{ kind: "chosen" }] };
    if (choice.role === null && times[k]) return timeReading;
    const values = columnValues(column, context);
    const words = readWords(column, names[k], values, choice);
    const line = alone ? `${onlyChannelLine(preamble)} | ${lines[k]}` : lines[k];
    return words ?? gatherFacts(column, names[k], line, preamble, values, choice, letters[k]);
  });
  const facts = begun.filter((b): b is ColumnFacts => "column" in b);
  const file: FileFacts = {
    preamble,
    around: [...preamble, ...(context.below ?? []).filter((line) => line.length <= 1000)],
    system: unitSystem(facts.map((f) => f.unit?.unit ?? null)),
    hasPressure: facts.some((f) => f.guess.role === "pressure"),
    known: facts.filter((f) => f.guess.role !== "other").length,
    numbers: facts.length,
    nameless: facts.filter((f) => f.unit?.unit.quantity === "length" && f.guess.by === "none").length,
    rawCount: facts.filter((f) => f.unit !== null && (f.unit.unit.symbol === "mA" || f.unit.unit.quantity === "voltage")).length,
  };
  const readings = begun.map((b) => ({ ...("column" in b ? readNumbers(b, file) : b), onChange }));
  return tellApart(readings, columns);
}

const timeReading: ColumnReading = { ...NOTHING, role: "time", certainty: 0.95, reason: [{ kind: "times" }] };

function isTime(profile: ColumnProfile): boolean {
  if (profile.share < 0.6) return false;
  if (["stamp", "date", "time", "duration", "half"].includes(profile.kind)) return true;
  const climbs = profile.rises > 0 && profile.falls <= 0.05 * profile.rises;
  return profile.kind === "number" && climbs && (elapsedUnit(profile) !== null || isTimeHeading(profile.words));
}

/** A column of words: a running flag where they are words for on and off, else text. Null where numbers prevail. */
function readWords(column: ColumnText, name: string, values: ColumnValues, choice: ColumnChoice): ColumnReading | null {
  const chosen = choice.role;
  const words = spacedWords(column.heading);
  const said = guessRole(words, null, { ...values, binary: true });
  const contact = /\bcontact\w*\b|\bkontakt\b|\brelay\b|\brelais\b|\bswitch\b|\bcontat\w*\b/.test(words);
  // "low" and "open" are marks of missing readings, unless the whole column is such words
  const runs = said.role === "running";
  const whole = stateWords(column.sample, contact, runs);
  const paired = whole !== null && (new Set(whole.values()).size === 2 || runs) && ![...whole.keys()].every((word) => /^-?\d+$/.test(word));
  // an "x" marks a missing reading, unless the column holds nothing else
  const texts = values.filled === 0 ? column.sample.filter(isTick) : values.texts;
  if (!paired && (texts.length === 0 || texts.length < 0.5 * values.filled)) return null;
  const states = paired ? whole : stateWords(texts, contact, runs);
  if (states === null) {
    // "Status: OK" and "Status: fault" are no machine that runs or stands
    const machine =
      chosen === "running" || (MACHINE_WORDS.test(words) && !MACHINE_FACTS.test(words) && !(said.role === "other" && said.by === "words"));
    const pair = machine && values.numbers.length === 0 ? twoWords(texts, column.sample) : null;
    const other: ColumnReading = { ...NOTHING, role: chosen ?? "other", certainty: 0.9, reason: [{ kind: "words" }] };
    return pair === null ? other : readUnknownWords(other, name, pair, choice, words);
  }
  // a flow switch is on while water flows: no running flag of a pump
  const nameless = /^[a-z]{1,2} ?\d{0,2}$/.test(words) || (said.role === "other" && said.by !== "words");
  const namesNothing = nameless && (said.generic || saysMachine([...states.keys()]));
  const role = chosen ?? (said.role === "running" || namesNothing ? "running" : "other");
  const stands = role === "running" && saysOff(words);
  return {
    ...NOTHING,
    role,
    position: findPosition(words),
    quantity: "state",
    words: stands ? new Map([...states].map(([word, state]) => [word, 1 - state] as const)) : states,
    certainty: said.role === "running" ? 0.95 : 0.75,
    reason: [{ kind: "on-off-words", words: [...states.keys()].slice(0, 4) }, ...(stands ? [{ kind: "on-when-standing" } as const] : [])],
  };
}

/** Two words under the name of a machine of which none is known: only a person can say which of them means that it runs. */
function readUnknownWords(
  base: ColumnReading,
  name: string,
  pair: readonly [string, string],
  { role, onWord }: ColumnChoice,
  words: string,
): ColumnReading {
  const answers = pair.map((word) => (word === "" ? "blank" : word));
  const options = [...answers.map((word) => `${RUNNING_AT}${word}`), "other"];
  const id = `column-role:${name}`;
  if (onWord !== null && !answers.includes(onWord))
    throw new ImportError({ id: "unknown-answer", question: id, answer: `${RUNNING_AT}${onWord}`, options });
  const isTicked = isTick(pair[0]) && isMissing(pair[1]);
  const on = onWord ?? (isTicked && role !== "other" ? answers[0] : null);
  const assumed = on === null ? "other" : `${RUNNING_AT}${on}`;
  const asks = { kind: "running-word", name, words: [answers[0], answers[1]] } as const;
  // a cross under "Pump on" leaves nothing to ask, under "Pump" it may mean a fault
  const isPlain = isTicked && saysOn(words);
  const questions = onWord === null && role !== "other" && !isPlain ? [{ id, asks, options, assumed }] : [];
  if (on === null) return { ...base, questions };
  return {
    ...base,
    role: role ?? "running",
    position: findPosition(words),
    quantity: "state",
    words: new Map(pair.map((word, k) => [word.toLowerCase(), answers[k] === on ? 1 : 0] as const)),
    certainty: onWord !== null ? 1 : isPlain ? 0.9 : 0.6,
    reason: [onWord === null ? { kind: "mark", mark: on } : { kind: "chosen-word", word: on }],
    questions,
  };
}
