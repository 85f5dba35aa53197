import type { ChannelRole } from "../record/channel-role";
import type { Asked, Questions } from "./told";

/** Where a number stands that may be the mark of a missing value. */
const STANDS = {
  far: "far away from its other values",
  "below-zero": "where it is never below 0 otherwise",
  away: "away from its other values",
} as const;
export type MarkStands = keyof typeof STANDS;

const open = (text: string): Asked => ({ text, meaning: [] });
const mark = (text: string): Asked => ({
  text: `${text} Is that a reading or the mark of a missing one?`,
  meaning: ["it is a reading", "it stands for no reading"],
});

/** What only a person can know of the columns of a file and their numbers. */
export const COLUMN_QUESTIONS = {
  decimal: ({ between }: { between: "," | "." }) => ({
    text: `Numbers such as 1${between}234: is the ${between === "," ? "comma" : "point"} the decimal mark, or does it group thousands?`,
    meaning: [`1${between}234 is a little more than one`, `1${between}234 is one thousand two hundred and thirty-four`],
  }),
  devices: ({ heading, names }: { heading: string; names: readonly string[] }, w) => ({
    text: `The table holds the rows of ${w.number(names.length)} devices or places, told apart by "${heading}". Do they belong to one system, or which of them is meant?`,
    meaning: ["every one gets channels of its own in one record", ...names.map((name) => `only the rows of ${name}`)],
  }),
  role: ({ name, unit }: { name: string; unit: string | null }) =>
    open(
      `What does "${name}" hold? ${unit === null ? "Neither its heading nor a unit says it" : `It is in ${unit}, its heading does not say of what`}.`,
    ),
  "running-word": ({ name, words }: { name: string; words: readonly [string, string] }) => ({
    text: `"${name}" holds "${words[0]}" and "${words[1]}" in turn. Which of the two says that it runs?`,
    meaning: [...words.map((word) => `it runs while "${word}" stands there`), "it is no running flag"],
  }),
  "running-number": ({ name, levels }: { name: string; levels: readonly [number, number] }, w) => ({
    text: `"${name}" holds ${w.number(levels[0])} and ${w.number(levels[1])} in turn. Which of the two says that it runs?`,
    meaning: [...levels.map((level) => `it runs while ${w.number(level)} stands there`), "it is no running flag"],
  }),
  volume: ({ name, unit }: { name: string; unit: string }) => ({
    text: `"${name}" speaks of a flow and names ${unit}, a volume, but does not rise. What does a row hold?`,
    meaning: [`the ${unit} counted since the row before`],
  }),
  unit: ({ name, likeliest }: { name: string; likeliest: string }) =>
    open(`In which unit is "${name}"? The file names none; ${likeliest} is likeliest by the size of its values.`),
  "unit-by-heading": ({ name, heading, row }: { name: string; heading: string; row: string }) =>
    open(`The heading of "${name}" says ${heading}, the row of units says ${row}. Which is it?`),
  "unit-above": ({ name, from, here, above }: { name: string; from: "heading" | "row"; here: string; above: string }) =>
    open(
      `The ${from === "row" ? "row of units" : "heading"} of "${name}" says ${here}, the lines above the table say ${above}. Which is it?`,
    ),
  /** `line`: one above the table that may speak of a scale. */
  scale: ({ name, unit, line, steps }: { name: string; unit: string; line: string | null; steps: readonly string[] }) => ({
    text: `"${name}" names "${unit}"${line === null ? "" : `, and "${line}" may speak of a scale`}: what is one step of its numbers?`,
    meaning: steps.map((step) => `a 1 in the file is ${/^\d/.test(step) ? step : `1 ${step}`}`),
  }),
  "impossible-unit": ({ name, unit, about }: { name: string; unit: string; about: number }, w) =>
    open(
      `"${name}" is in ${unit} by the file, but values about ${w.number(about)} ${unit} are none of a pumped water system. In which unit is it?`,
    ),
  reference: ({ name }: { name: string }) => ({
    text: `"${name}" rests at the pressure of the air. Does it count from vacuum (absolute) or from the air (gauge)?`,
    meaning: ["the pipe was empty or open when it rested", "the pipe held about one atmosphere when it rested"],
  }),
  vacuum: ({ name }: { name: string }) => ({
    text: `"${name}" names a vacuum and its numbers lie above 0. Do they say how far below the air the pressure is?`,
    meaning: ["the larger the number, the lower the pressure", "the pressure above nothing at all", "the pressure above the air around"],
  }),
  pulses: ({ name, line }: { name: string; line: string | null }) =>
    open(`"${name}" counts pulses of a meter. How much water is one pulse?${line === null ? "" : ` "${line}" may say it.`}`),
  "meter-frequency": ({ name }: { name: string }) => open(`"${name}" is the frequency of a meter's pulses. How much water is one pulse?`),
  /** `counts`: the highest of a signal in counts; null for one of its own kind. */
  range: ({ name, signal, counts, role }: { name: string; signal: string; counts: number | null; role: ChannelRole }, w) => {
    const what = counts === null ? `${signal} signal` : `signal in counts (0 to ${w.number(counts)} by its values)`;
    const span = signal.endsWith("V") ? " A signal of another span is named with it: 0.5-4.5 V = 0..10 bar." : "";
    return open(`"${name}" is a raw ${what}${role === "other" ? "" : ` of a ${role}`}. Which range does it stand for?${span}`);
  },
  sentinel: ({ name, number, stands }: { name: string; number: number; stands: MarkStands }, w) =>
    mark(`"${name}" holds ${w.number(number)} again and again, ${STANDS[stands]}.`),
  "sentinel-line": ({ name, number, line }: { name: string; number: number; line: string }, w) =>
    mark(`"${line}" names ${w.number(number)} and speaks of missing values, and "${name}" holds it.`),
} as const satisfies Questions;
