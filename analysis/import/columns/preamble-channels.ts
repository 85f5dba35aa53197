import { foldWord } from "../clock/calendar-words";
import { foldHeading } from "../clock/column-profile";
import { isTimeHeading } from "../clock/number-clock";
import { spacedWords } from "./column-facts";
import type { ColumnText } from "./column-reading";
import { guessRole } from "./column-role";
import { NO_VALUES } from "./column-values";
import { wholeUnit } from "./unit-from-text";

/** What the lines above the table say of one column: the text after its name. */
export type ChannelLine = { readonly text: string };

const CHANNEL =
  "(?:ch|chan|channel|kanal|canal|canale|voie|kanaal|ain|ai|input|eingang|entree|entrada|ingresso|ingang|sensor|capteur|column|spalte|colonne|columna|coluna|colonna|kolom)";
/** A minus before a digit belongs to the number. */
const MARKS = "(?:[\\s:=;,\\t|\"'.)\\]>]|-(?!\\d))";

/**
 * Lines that name the column and go on: "Ch1: Pressure, bar", "CH1;Druck;bar;0..10", "Channel 1 = Flow (L/min)", "Pressure unit: bar".
 * A line of units for all columns ("Units: s, bar, l/min") gives each its own.
 */
export function channelLines(columns: readonly ColumnText[], preamble: readonly string[]): readonly string[] {
  const lists = unitLists(columns, preamble);
  const common = preamble.flatMap((line) => COMMON_UNIT.exec(line)?.[1] ?? []);
  return columns.map((column, k) => {
    const told = preamble.flatMap((line) => textAfterName(line, column.heading) ?? []);
    // "Pressure of suction: bar" is no line of "Pressure" where that has its own, or where another column is called so
    const exact = told.filter(({ isExact }) => isExact);
    const loose = told.filter(({ line }) => !columns.some((other, i) => i !== k && textAfterName(line, other.heading)?.isExact === true));
    const byNumber = preamble.flatMap((line) =>
      line.match(COLUMN_LINE)?.[1] === String(column.index + 1) ? line.replace(COLUMN_LINE, "") : [],
    );
    const found = [
      ...(exact.length > 0 ? exact : loose).map(({ text }) => text),
      ...byNumber,
      ...unitsOfKinds(column, preamble),
      ...common,
    ];
    return [...found, ...(lists === null ? [] : [lists[k]])].join(" | ");
  });
}

/** "Column 2 = pressure (bar)": by the place of the column in the table. */
const COLUMN_LINE = /^[#\s"']*(?:column|col\.?|spalte|colonne|columna|coluna|colonna|kolom)\s*#?(\d{1,2})\s*["']?\s*[:=;,\t-]\s*/i;

/** The names that lines above a table without headings give its columns by their numbers; "" where they give none. */
export const numberedNames = (preamble: readonly string[], count: number): readonly string[] =>
  Array.from(
    { length: count },
    (_, i) =>
      preamble
        .find((line) => line.match(COLUMN_LINE)?.[1] === String(i + 1))
        ?.replace(COLUMN_LINE, "")
        .replace(/["';,\s]+$/, "") ?? "",
  );

const KIND_IN_UNIT = /(\p{L}{3,})\s+(?:are |is |sind |ist |sont |est |son )?(?:in|en|em)\s+([^\s,;.]{1,12})/giu;

/** "All pressures in kPa, flows in L/s": the unit of every column of that kind. */
function unitsOfKinds({ heading }: ColumnText, preamble: readonly string[]): readonly string[] {
  const own = guessRole(spacedWords(heading), null, NO_VALUES);
  if (own.by !== "words" || own.role === "other") return [];
  return preamble.flatMap((line) =>
    [...line.matchAll(KIND_IN_UNIT)].flatMap(([, word, unit]) =>
      guessRole(spacedWords(word), null, NO_VALUES).role === own.role && wholeUnit(unit) !== null ? [unit] : [],
    ),
  );
}

/** A line that names one unit for the file: "Einheit: bar", "Engineering unit,psi". */
const COMMON_UNIT =
  /^[#\s"']*(?:\p{L}+\s+)?(?:units?|einheit(?:en)?|unités?|unidad(?:es)?|unidades?|unità|eenhe(?:id|den))\s*["']?\s*[:=;,\t]\s*["']?([^;,\t"']{1,20})["']?\s*[;,]*$/iu;

/** A line that says what the only channel of a file holds: "Channel: Pressure", "Description;Discharge pressure". */
const ONLY_CHANNEL =
  /^[#\s"']*(?:channel|description|parameter|measurement|quantity|measurand|kanal|messgröße|bezeichnung|voie|grandeur|canal|magnitud|grandeza|descrizione|grandezza|kanaal|grootheid)(?:\s+(?:name|type))?\s*["']?\s*[:=;,\t]\s*["']?(.{2,60}?)["']?\s*[;,]*$/iu;

/** What the lines above the table say of the only column of values. */
export const onlyChannelLine = (preamble: readonly string[]): string =>
  preamble.flatMap((line) => ONLY_CHANNEL.exec(line)?.[1] ?? []).join(" ");

function textAfterName(line: string, heading: string): { readonly text: string; readonly line: string; readonly isExact: boolean } | null {
  const name = bareName(heading);
  if (name === "" || name.length > 40) return null;
  const number = new RegExp(`^${CHANNEL} ?#? ?(\\d+)\\b`).exec(name)?.[1];
  const spelled =
    number === undefined
      ? escaped(name).replace(/ /g, "[\\s_.-]*")
      : `(?:${CHANNEL}[\\s_.#-]*0*${number}(?!\\d)|0*${number}(?=\\s*[:;=\\t,]))`;
  const match = new RegExp(
    `^[#\\s"';%/*-]*(?:(?:${CHANNEL}[\\s_.#-]*)?\\d{1,2}\\s*[;,\\t|:=.)]\\s*["']?)?${spelled}(?:\\s+(?:name|unit|units|einheit|unite|unidad|unidade|unita|eenheid|range|scale|type|description|label|sensor))*(${MARKS}+)(?=\\S)(.*)$`,
    "i",
  ).exec(fold(line));
  if (match === null) return null;
  const rest = line.slice(line.length - match[match.length - 1].length).trim();
  if (rest === "" || rest.length > 200) return null;
  return { text: rest.replace(/^["']|["']$/g, ""), line, isExact: /[^\s"']/.test(match[match.length - 2]) };
}

/** Folded, but as long as the line itself, so that places agree. */
const fold = (line: string): string =>
  Array.from(line, (c) => {
    const folded = c
      .normalize("NFD")
      .replace(/[\u0300-\u036f]/g, "")
      .toLowerCase();
    return folded.length === c.length ? folded : c;
  }).join("");

const bareName = (heading: string) =>
  foldWord(
    heading
      .replace(/[[({<].*$/, "")
      .replace(/([a-z])(\d)/gi, "$1 $2")
      .replace(/[_-]+/g, " ")
      .trim(),
  );
const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");

/** A list may leave the time out. */
function unitLists(columns: readonly ColumnText[], preamble: readonly string[]): readonly string[] | null {
  const count = columns.length;
  const timeFirst = count > 0 && isTimeHeading(foldHeading(columns[0]));
  for (const line of preamble) {
    const match =
      /^[#\s"']*(?:units?|einheit(?:en)?|unités?|unidad(?:es)?|unidades?|unità|eenhe(?:id|den))\s*["']?\s*[:=;,\t]\s*(.+)$/i.exec(line);
    if (match === null) continue;
    for (const mark of ["\t", ";", ",", "|"]) {
      const parts = match[1].split(mark).map((part) => part.trim().replace(/^["']|["']$/g, ""));
      if (parts.length === count && count > 1) return parts;
      if (timeFirst && count > 2 && parts.length === count - 1) return ["", ...parts];
    }
  }
  return null;
}

/** Lines that say the logger writes a row only when a value changes. */
export const writesOnChange = (preamble: readonly string[]): boolean =>
  preamble.some((line) =>
    /\bon[ -]change\b|\bchange[ -]of[ -](?:value|state)\b|\blog(?:ged)? on change\b|\bcov\b|\bbei (?:Ä|ä|ae)nderung|\bereignisgesteuert|\bsur changement|\bpor cambio|\bpor mudan|\bsu variazione|\bbij wijziging|\bevent[ -](?:based|driven)|\bdeadband\b|\bexception report/i.test(
      line,
    ),
  );
