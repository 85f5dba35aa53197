import { dayNumber, daysFromCivil, fullYear } from "./civil-days";
import type { DateOrder } from "./stamp";

/**
 * Days since 1970 of a date in digits without marks: "06052024", "140324". Of eight digits the year is last (those with the year first are ISO 8601);
 * six are two each in `order`. NaN where that date does not exist.
 */
export function packedDays(digits: string, order: DateOrder): number {
  const [a, b, c] = [digits.slice(0, 2), digits.slice(2, 4), digits.slice(4)].map(Number);
  if (digits.length === 8) {
    if (!(c >= 1970 && c < 2100)) return Number.NaN;
    return order === "mdy" ? dayNumber(c, a, b) : dayNumber(c, b, a);
  }
  if (order === "ymd") return dayNumber(fullYear(a), b, c);
  return order === "mdy" ? dayNumber(fullYear(c), a, b) : dayNumber(fullYear(c), b, a);
}

/** ISO 8601 week date: week 1 holds the year's first Thursday. */
export function weekDate(year: number, week: number, day: number): number {
  if (!(week >= 1 && week <= 53 && day >= 1 && day <= 7)) return Number.NaN;
  const january4 = daysFromCivil(year, 1, 4);
  const monday = january4 - ((january4 + 3) % 7);
  return monday + (week - 1) * 7 + day - 1;
}
