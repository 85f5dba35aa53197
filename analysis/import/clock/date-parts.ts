import { calendarWord } from "./calendar-words";
import type { ColumnProfile } from "./column-profile";
import type { TimePart } from "./time-part";
import { YEAR_DAY } from "./year-day-clock";

export type Part = "year" | "month" | "day" | "dayOfYear" | "hour" | "minute" | "second" | "hhmm";
type PartForm = { readonly names: RegExp; readonly low: number; readonly high: number };

/** Folded names of columns that hold a part of the date or the time; common practice, no source. */
const FORMS: Readonly<Record<Part, PartForm>> = {
  year: { names: /^(years?|yr|yyyy|yy|y|jahr|jjjj|jj|annee|an|aaaa|aa|ano|anno|jaar)$/, low: 0, high: 2200 },
  day: {
    names: /^(days?|dd|d|tag|tt|t|jour|jj|j|dia|giorno|gg|g|dag|day of (?:the )?month|date of (?:the )?month|mday)$/,
    low: 1,
    high: 31,
  },
  dayOfYear: { names: YEAR_DAY, low: 0, high: 366.99999999 },
  hour: { names: /^(hours?|hr|hrs|hh|h|std|stunden?|heures?|horas?|ore|ora|uur|uren)$/, low: 0, high: 24 },
  minute: { names: /^(minutes?|mins?|mi|mn|nn|mm|m|minuten?|minutos?|minuti|minuto|minuut)$/, low: 0, high: 59 },
  month: { names: /^(months?|mon|mo|mm|m|monat|mois|mes|mese|maand)$/, low: 1, high: 12 },
  second: { names: /^(seconds?|secs?|s|ss|sekunden?|secondes?|segundos?|secondo|secondi|sek|seg)$/, low: 0, high: 60.999 },
  hhmm: { names: /^(hhmm|hh mm|time|hour minute|hourmin)$/, low: 0, high: 2400 },
};

/** What a name of a part carries beside it: what it is a part of, its limits, that it is local ("Hour of day (0-23)", "Hour ending"). Zones go too. */
const BESIDE =
  /\b(?:of (?:the )?(?:hour|minute)|(?:hour|stunde|heure|hora|ora|uur) (?:of (?:the )?|des |du |del |do |van de )(?:day|tages|jour|dia|giorno|dag)|ending|beginning|starting|local\w*|lokal\w*|locale|\d+)\b/g;

/** The folded heading of a column as the name of a part of the date or the time. */
const nameOf = ({ words }: ColumnProfile): string => {
  const bare = words.replace(BESIDE, (found) => (/^(?:hour|stunde|heure|hora|ora|uur) /.test(found) ? "hour" : " "));
  const kept = bare.split(/\s+/).filter((word) => word !== "" && calendarWord(word)?.kind !== "zone");
  return kept.length === 0 ? words : kept.join(" ");
};

const isMonthName = (cell: string): boolean => calendarWord(cell)?.kind === "month";

/** The number of a month that is written as a word; NaN where it is none. */
export function monthOf(cell: string): number {
  const word = calendarWord(cell);
  return word?.kind === "month" ? word.month : Number.NaN;
}

function fits(part: Part, profile: ColumnProfile): boolean {
  const { names, low, high } = FORMS[part];
  if (!names.test(profile.words) && !names.test(nameOf(profile))) return false;
  if (part === "month" && profile.kind === "text") return profile.column.sample.every((cell) => cell === "" || isMonthName(cell));
  return profile.kind === "number" && profile.numbers.every((v) => Number.isNaN(v) || (v >= low && v <= high));
}

/** "MM" right behind "HH" counts minutes, before it the months. */
function findMinute(profiles: readonly ColumnProfile[], hour: ColumnProfile | undefined): ColumnProfile | undefined {
  const found = profiles.filter((p) => fits("minute", p));
  const at = hour === undefined ? Number.NaN : profiles.indexOf(hour);
  return found.find((p) => profiles.indexOf(p) === at + 1) ?? found.find((p) => !/^mm?$/.test(nameOf(p)));
}

export type Components = ReadonlyMap<Part, ColumnProfile>;

function findParts(profiles: readonly ColumnProfile[], parts: readonly Part[]): Map<Part, ColumnProfile> {
  const found = new Map<Part, ColumnProfile>();
  for (const part of parts) {
    const free = profiles.filter((p) => ![...found.values()].includes(p));
    const profile =
      part === "minute"
        ? findMinute(free.concat(found.get("hour") ?? []).sort(byPlace), found.get("hour"))
        : free.find((p) => fits(part, p));
    if (profile !== undefined) found.set(part, profile);
  }
  return found;
}

const byPlace = (a: ColumnProfile, b: ColumnProfile) => a.column.index - b.column.index;

/** Columns of year, month, day (or day of the year) and hour, minute, second, where the file has them; null unless the date is whole. @param year as the file names it elsewhere */
export function findComponents(profiles: readonly ColumnProfile[], year: number | null): Components | null {
  const found = findParts(profiles, ["year", "day", "dayOfYear", "hour", "minute", "month", "second", "hhmm"]);
  if (!found.has("month")) found.delete("day");
  // a column that says no more than "day" needs its year and month beside it
  if (!found.has("year") && (year === null || found.get("dayOfYear")?.words === "day")) return null;
  const dated = (found.has("month") && found.has("day")) || found.has("dayOfYear");
  return dated ? found : null;
}

/** Columns of hour, minute and second for a date in a column of its own; empty where there is no hour. */
export function findTimeComponents(profiles: readonly ColumnProfile[]): readonly TimePart[] {
  const found = findParts(profiles, ["hour", "minute", "second"]);
  const [hour, minute, second] = (["hour", "minute", "second"] as const).map((part) => found.get(part));
  if (hour === undefined) return [];
  const used = [hour, ...(minute === undefined ? [] : [minute, ...(second === undefined ? [] : [second])])];
  // an hour alone is a time of day to the hour
  return used.map((profile) => ({ profile, asText: (cell) => (used.length === 1 && cell !== "" ? `${cell}:00` : cell), plain: false }));
}
