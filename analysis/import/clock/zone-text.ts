import { calendarWord } from "./calendar-words";
import { timeUnit } from "./interval-text";
import { isPlaceZone } from "./place-zone";

/** "+02:00" of 7200 s; "UTC" of 0. */
export function writeOffset(seconds: number): string {
  if (seconds === 0) return "UTC";
  const minutes = Math.round(Math.abs(seconds) / 60);
  return `${seconds < 0 ? "-" : "+"}${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
}

/** Seconds east of UTC where the zone is a fixed offset ("+02:00", "UTC", "CET"), null where it is a place or nothing known. */
export function fixedOffset(zone: string): number | null {
  const match = /^(?:UTC|GMT|Z)?\s*([+\-\u2212])\s*(\d{1,2})(?::?(\d{2}))?$/i.exec(zone.trim());
  if (match !== null) {
    const seconds = (match[1] === "+" ? 1 : -1) * (Number(match[2]) * 3600 + Number(match[3] ?? 0) * 60);
    return Math.abs(seconds) <= 14 * 3600 ? seconds : null;
  }
  const word = calendarWord(zone.trim());
  return word?.kind === "zone" ? word.offset : null;
}

/** The zone a person or a file named, in one form: an IANA name, "+02:00" or "UTC"; null where it is none. */
export function readZone(text: string): string | null {
  const zone = text.trim();
  if (isPlaceZone(zone)) return zone;
  const offset = fixedOffset(zone);
  return offset === null ? null : writeOffset(offset);
}

/** Zones that people name by their part of a country; the platform's names for them. Common practice, no source. */
const SPOKEN: readonly (readonly [RegExp, string])[] = [
  [/\beastern (?:standard |daylight |summer )?time\b|\bUS\/Eastern\b/i, "America/New_York"],
  [/\bcentral (?:standard |daylight )?time\b|\bUS\/Central\b/i, "America/Chicago"],
  [/\bmountain (?:standard |daylight )?time\b|\bUS\/Mountain\b/i, "America/Denver"],
  [/\bpacific (?:standard |daylight )?time\b|\bUS\/Pacific\b/i, "America/Los_Angeles"],
];

/** What a line gives as its zone, in its own words; null where it gives none or only says that the time is local. */
export function zoneWords(line: string): string | null {
  const match =
    /(?:time ?zone|\btz|zeitzone|fuseau horaire|zona horaria|huso horario|fuso orario|fuso horario|fuso horário|tijdzone)\s*["']?\s*[:=;,\t]\s*["']?(.+?)["']?\s*[;,]*$/i.exec(
      line,
    );
  return match === null || /^(?:local|lokal|heure locale|none|n\/a|-+|unknown|logger|device)\b/i.test(match[1]) ? null : match[1];
}

const OFFSET = /(?:UTC|GMT)\s*[+\-\u2212]\s*\d{1,2}(?::?\d{2})?|(?<![\d:])[+\-\u2212]\d{2}:?\d{2}(?!\d)/i;

const UNIT = "(min\\w*|h|hrs?|hours?|std|stunden|s|secs?|seconds?|sekunden)";
const OFFSET_WORD =
  /offset|versatz|difference|unterschied|abweichung|d[ée]calage|[ée]cart|diferencia|desfase|diferen[çc]a|differenza|scarto|verschil|afwijking/i;
/** The one number of a text, with its sign. */
const ONE_NUMBER = /(?<![\d.,:])[+\-\u2212]?\d{1,5}(?:[.,]\d{1,2})?(?![\d:])/g;
const BEHIND_NAME = /\b(?:utc|gmt|tz|time ?zone|zone)[^\p{L}\d]{1,4}\d/iu;

/** "5 hours behind UTC", "2 h ahead of GMT". */
const BESIDE_UTC = new RegExp(
  `([\\d.]{1,5})\\s*${UNIT}\\s*(ahead of|east of|before|vor|behind|west of|after|hinter)\\s*(?:utc|gmt|greenwich)\\b`,
  "i",
);
/** POSIX.1, environment variable TZ: hours west of UTC behind the name. */
const POSIX = /\bTZ\s*[=: ]\s*["']?:?(?:[A-Z]{3,5}|<[A-Z\d+-]{3,6}>)([+-]?\d{1,2})(?::?(\d{2}))?(?![A-Z\d])/;

const inUnit = (value: number, unit: string): number => value * (/^m/i.test(unit) ? 60 : /^(?:s(?!t)|sek)/i.test(unit) ? 1 : 3600);

/** A number after the word offset and no unit: of all that it could be only one is an offset. */
const withoutUnit = (value: number): number => (Math.abs(value) <= 14 ? value * 3600 : Math.abs(value) <= 840 ? value * 60 : value);

/** "UTC offset (min): 60", "Time zone offset: -5 h", "5 hours behind UTC": seconds east of UTC; null where the text names no number of them. */
function countedOffset(text: string): number | null {
  const posix = POSIX.exec(text);
  if (posix !== null) return -(Number(posix[1]) * 3600 + Math.sign(Number(posix[1])) * Number(posix[2] ?? 0) * 60);
  const beside = BESIDE_UTC.exec(text);
  if (beside !== null) return inUnit(Number(beside[1]), beside[2]) * (/ahead|east|before|vor/i.test(beside[3]) ? 1 : -1);
  const found = /utc|gmt|tz|zon|fuseau|fuso|huso/i.test(text) && !/\d:\d/.test(text) ? (text.match(ONE_NUMBER) ?? []) : [];
  const unit = text
    .split(/[^\p{L}]+/u)
    .map(timeUnit)
    .find((seconds) => seconds !== null && seconds < 86400);
  const saysOffset = OFFSET_WORD.test(text);
  if (found.length !== 1 || (unit === undefined && !saysOffset)) return null;
  if (!saysOffset && !/^[+\-\u2212]/.test(found[0]) && !BEHIND_NAME.test(text)) return null;
  const value = Number(found[0].replace("\u2212", "-").replace(",", "."));
  const seconds = unit === undefined || unit === null ? withoutUnit(value) : value * unit;
  return Math.abs(seconds) <= 14 * 3600 && seconds % 900 === 0 ? seconds : null;
}

/** A zone named somewhere in a heading or a preamble line: a place name, an offset after UTC or GMT, or an abbreviation in capitals. */
export function findZone(text: string): string | null {
  for (const [name] of text.matchAll(/[A-Za-z]+(?:\/[A-Za-z\d_+-]+)+/g)) if (isPlaceZone(name)) return name;
  for (const [words, zone] of SPOKEN) if (words.test(text)) return zone;
  const counted = countedOffset(text);
  if (counted !== null) return writeOffset(counted);
  const offset = OFFSET.exec(text);
  if (offset !== null && /utc|gmt|zon|offset|fuseau|huso|fuso|tijdz/i.test(text)) return readZone(offset[0]);
  for (const [word] of text.matchAll(/\b[A-Z]{3,4}\b/g)) {
    const seconds = fixedOffset(word);
    // "2 heures en avance sur UTC" is not UTC, whatever the words say
    if (seconds !== null && (seconds !== 0 || !countsHours(text))) return writeOffset(seconds);
  }
  return null;
}

/** One number of hours that a zone may be away. */
const countsHours = (text: string): boolean => {
  const numbers = text.match(ONE_NUMBER) ?? [];
  const hours = text.split(/[^\p{L}]+/u).some((word) => timeUnit(word) === 3600);
  return numbers.length === 1 && hours && Number(numbers[0].replace("\u2212", "-").replace(",", ".")) !== 0;
};
