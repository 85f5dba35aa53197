import type { ClockHints } from "./clock-hints";
import type { ColumnProfile } from "./column-profile";
import { timeUnit } from "./interval-text";
import { stampsIn, type ToldStamp } from "./preamble-clock";

const SINCE = /(?:^|[^\p{L}])(?:since|seit|depuis|desde|dal|sinds|after|past|from)\s+(.+)$/iu;
const EPOCH =
  /\bepoch\b|\btime origin\b|\breference (?:time|date|epoch)\b|\bzero time\b|\b(?:counted|seconds|days) (?:from|since)\b|\bzeitbasis\b/i;
const COUNT = /(\d+)?\s*([\p{L}µ]+)\s+(?:since|seit|depuis|desde|dal|sinds|after|from)\s/iu;
const UNIX = /^1970-0?1-0?1\b|^0?1[./-]0?1[./-]1970\b/;

/** A count from the day of Unix in another unit than its own. */
const COARSE = /^(?:min\w*|hours?|hrs?|std|stunden|heures|horas|ore|uren|days?|tage|jours|dias|giorni|dagen)\b/;

/**
 * The instant that a column of numbers counts from, where its heading or its unit says it ("seconds since 2000-01-01 00:00:00") or a line above the table
 * ("Epoch: 2000-01-01"). Null where nothing does, or it is that of Unix, which needs no telling.
 */
export function toldEpoch({ column, words }: ColumnProfile, { context }: ClockHints): ToldStamp | null {
  const own = [column.unitsCell ?? "", column.heading].flatMap((text) => SINCE.exec(text)?.[1] ?? []);
  const lines = context.preamble.filter((line) => line.length < 200 && EPOCH.test(line));
  const [found] = [...own, ...lines].flatMap((text) => stampsIn(text)).filter(({ hasDate }) => hasDate);
  return found === undefined || (UNIX.test(found.text) && !COARSE.test(words)) ? null : found;
}

/** What one step of the numbers is, where the heading or the unit says it before what it counts from: "100 ns since 0001-01-01". Null where it does not. */
export function toldCount({ column }: ColumnProfile): { readonly seconds: number; readonly name: string } | null {
  for (const text of [column.unitsCell ?? "", column.heading]) {
    const [, amount = "1", unit = ""] = COUNT.exec(text) ?? [];
    const seconds = timeUnit(unit);
    if (seconds !== null) return { seconds: Number(amount) * seconds, name: amount === "1" ? unit : `${amount} ${unit}` };
  }
  return null;
}
