import type { ClockReading } from "./clock/clock-reading";
import type { ColumnText } from "./columns/column-reading";
import { stateWords } from "./columns/running-words";
import { UNIT_WORD } from "./columns/unit-column";
import { wholeUnit } from "./columns/unit-from-text";
import { isMissing, type NumberFormat, parseNumber } from "./number-format";

/** One value a row: which columns name the channel, its value and its unit. */
export type LongForm = { readonly key: number; readonly value: number; readonly unit: number | null };

const KEY_WORD =
  /\b(?:channel|chan|ch|topic|tag|tagname|name|sensor|point|variable|parameter|param|measurement|measure|signal|series|item|object|field|kanal|messstelle|messgr[oö]sse|messgröße|gr[oö]sse|größe|sensorname|bezeichnung|voie|canal|capteur|grandeur|mesure|sensor|medici[oó]n|magnitud|se[ñn]al|grandezza|canale|sensore|kanaal|meetpunt|grootheid)\b/i;
const VALUE_WORD = /\b(?:value|val|payload|reading|wert|messwert|valeur|valor|valore|waarde|meetwaarde|data|result|measurement)\b/i;
const MOST_CHANNELS = 64;

/**
 * Whether a table is in long form: a column of few names that come again and again, one column of numbers, and either headings that say so or
 * several names at one instant.
 */
export function findLongForm(texts: readonly ColumnText[], clock: ClockReading, format: NumberFormat): LongForm | null {
  const others = texts.filter((text) => !clock.columns.includes(text.index));
  const numeric = others.filter(
    (text) => numberShare(text, format, saysValue(text.heading) ? wordsAmongNumbers(text, format) : null) > 0.5,
  );
  const named = numeric.filter((text) => VALUE_WORD.test(text.heading));
  const value = numeric.length === 1 ? numeric[0] : named.length === 1 ? named[0] : undefined;
  if (value === undefined) return null;
  const words = others.filter((text) => text !== value && !UNIT_WORD.test(text.heading) && isFewNames(text, format));
  const key =
    words.find((text) => KEY_WORD.test(text.heading) && (VALUE_WORD.test(value.heading) || severalAtOnce(text, texts, clock))) ??
    words.find((text) => severalAtOnce(text, texts, clock));
  if (key === undefined) return null;
  const rest = others.filter((text) => text !== key && text !== value);
  const unit = rest.find((text) => UNIT_WORD.test(text.heading)) ?? rest.find(holdsUnits);
  return { key: key.index, value: value.index, unit: unit?.index ?? null };
}

/** Nothing but units, one of them at least of more than a letter. */
function holdsUnits({ sample }: ColumnText): boolean {
  const found = [...new Set(sample)].filter((cell) => !isMissing(cell));
  return found.some((cell) => cell.length > 1) && found.length <= MOST_CHANNELS && found.every((cell) => wholeUnit(cell) !== null);
}

/** Whether a heading says no more than that there are values below. */
export const saysValue = (heading: string): boolean => VALUE_WORD.test(heading);

function numberShare(text: ColumnText, format: NumberFormat, words: ReadonlyMap<string, number> | null = null): number {
  const filled = text.sample.filter((cell) => !isMissing(cell));
  const isNumber = (cell: string) => !Number.isNaN(parseNumber(cell, format)) || words?.has(cell.toLowerCase()) === true;
  return filled.length === 0 ? 0 : filled.filter(isNumber).length / filled.length;
}

/** Words for on and off among the numbers of a column of values: one of its channels is a state. Null where there are none. */
export function wordsAmongNumbers({ sample }: ColumnText, format: NumberFormat): ReadonlyMap<string, number> | null {
  return stateWords(sample.filter((cell) => !isMissing(cell) && Number.isNaN(parseNumber(cell, format))));
}

/** Two names at least, each several times over, none of them blank, and not one number among them unless they are small channel numbers. */
function isFewNames(text: ColumnText, format: NumberFormat): boolean {
  const names = new Set(text.sample);
  if (names.size < 2 || names.size > MOST_CHANNELS || names.has("") || text.sample.length < 2 * names.size) return false;
  return numberShare(text, format) === 0 || (KEY_WORD.test(text.heading) && [...names].every((name) => /^\d{1,2}$/.test(name)));
}

/** At most instants several names stand, and no name twice. */
function severalAtOnce(key: ColumnText, texts: readonly ColumnText[], clock: ClockReading): boolean {
  const atInstant = new Map<string, Set<string>>();
  let twice = 0;
  key.sample.forEach((name, row) => {
    const instant = clock.columns.map((index) => texts[index].sample[row]).join(" ");
    const names = atInstant.get(instant) ?? new Set<string>();
    if (names.has(name)) twice++;
    names.add(name);
    atInstant.set(instant, names);
  });
  const several = [...atInstant.values()].filter((names) => names.size > 1).length;
  return several * 2 > atInstant.size && twice * 10 < key.sample.length;
}
