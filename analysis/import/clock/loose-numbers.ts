import { dayNumber, daysFromCivil, fullYear } from "./civil-days";
import { weekDate } from "./odd-dates";
import type { DateOrder } from "./stamp";

/** Numbers of a stamp that no colon and no letter claimed, and how many digits each had. */
export type LooseNumbers = { readonly values: readonly number[]; readonly lengths: readonly number[] };
/** A date, days since 1970-01-01, and how many of the numbers made it. */
export type LooseDate = { readonly days: number; readonly used: number };

const found = (days: number, used: number): LooseDate | null => (Number.isNaN(days) ? null : { days, used });

/** The date of numbers around the name of a month. */
export function dateWithMonth(numbers: LooseNumbers, month: number): LooseDate | null {
  const { values, lengths } = numbers;
  if (values.length < 2) return null;
  const yearFirst = lengths[0] === 4 || values[0] > 31;
  return found(yearFirst ? dayNumber(yearOf(numbers, 0), month, values[1]) : dayNumber(yearOf(numbers, 1), month, values[0]), 2);
}

/** The date of a year, an ISO week and, where it is written, a day of the week. */
export function dateOfWeek({ values, lengths }: LooseNumbers, week: number): LooseDate | null {
  const days = weekDate(values[0], week, values.length > 1 ? values[1] : 1);
  return values.length <= 2 && lengths[0] === 4 ? { days, used: values.length } : null;
}

/** The date of three numbers, or of a year and a day of the year. */
export function dateOfNumbers(numbers: LooseNumbers, order: DateOrder): LooseDate | null {
  const { values, lengths } = numbers;
  const [a, b, c] = values;
  if (values.length === 2 && lengths[0] === 4 && lengths[1] === 3)
    return b >= 1 && b <= 366 ? { days: daysFromCivil(a, 1, 1) + b - 1, used: 2 } : null;
  if (values.length < 3) return null;
  if (lengths[0] === 4) return found(order === "ydm" ? dayNumber(a, c, b) : dayNumber(a, b, c), 3);
  if (lengths[2] !== 4 && order === "ymd") return found(dayNumber(yearOf(numbers, 0), b, c), 3);
  return found(order === "mdy" ? dayNumber(yearOf(numbers, 2), a, b) : dayNumber(yearOf(numbers, 2), b, a), 3);
}

function yearOf({ values, lengths }: LooseNumbers, index: number): number {
  const length = lengths[index];
  return length === 4 ? values[index] : length === 2 ? fullYear(values[index]) : Number.NaN;
}

/** Hour, minute, second and its fraction in numbers behind a date: "2024-05-01-10-11-12", "01.05.2024 10.11.12.250000". Null where they are none. */
export function timeOfNumbers({ values, lengths }: LooseNumbers, from: number): readonly [number, number, number] | null {
  const rest = values.length - from;
  if (rest < 2 || rest > 4) return null;
  const fraction = rest === 4 ? values[from + 3] / 10 ** lengths[from + 3] : 0;
  return [values[from], values[from + 1], (rest > 2 ? values[from + 2] : 0) + fraction];
}
