import { type Span, spanLength } from "../findings/span";
import type { Clock } from "../record/clock";
import { formatQuantity } from "../units/format-quantity";
import { seconds } from "../units/quantity";
import type { UnitChoice } from "../units/unit-choice";

const OFFSET = /^([+-])(\d{2}):?(\d{2})$/;

/** An instant of the record in the clock it was logged by: "3 May 2024, 08:00:12"; for elapsed time "1 d 02:03:04". */
export function sayInstant(clock: Clock, t: number, locale: string | null): string {
  if (clock.kind === "elapsed") return sayElapsed(t);
  return dateTimeFormat(clock.zone, locale, { ...DAY, ...CLOCK_TIME }).format(shifted(clock, t));
}

/** A stretch, with the day said once where both ends lie in it: "3 May 2024, 08:00:12 to 08:04:00". */
export function saySpan(clock: Clock, span: Span, locale: string | null): string {
  const from = sayInstant(clock, span.from, locale);
  if (spanLength(span) === 0) return from;
  return `${from} to ${sameDay(clock, span, locale) ? sayTimeOfDay(clock, span.to, locale) : sayInstant(clock, span.to, locale)}`;
}

/** A day of this reader's own calendar, ms since 1970: "3 May 2024". */
export const sayDay = (at: number, locale: string | null): string =>
  new Intl.DateTimeFormat(locale ?? "en-GB", { dateStyle: "medium" }).format(at);

/** The same with the time: "3 May 2024, 08:00". */
export const sayMoment = (at: number, locale: string | null): string =>
  new Intl.DateTimeFormat(locale ?? "en-GB", { dateStyle: "medium", timeStyle: "short" }).format(at);

/** An instant of a clock without a zone, s as if UTC, as it is told in a sentence: "3 April 2024 10:15"; "?" where there is none. */
export function sayCivil(at: number, locale: string | null): string {
  const date = new Date(Math.round(at * 1000));
  if (Number.isNaN(date.getTime())) return "?";
  const write = (options: Intl.DateTimeFormatOptions) => dateTimeFormat(null, locale, options).format(date);
  return `${write({ day: "numeric", month: "long", year: "numeric" })} ${write({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" })}`;
}

/** A day in the form 2024-05-03, in the order and the words of a locale. */
export const sayCivilDay = (iso: string, locale: string | null): string =>
  locale === null ? iso : dateTimeFormat(null, locale, DAY).format(new Date(`${iso}T00:00:00Z`));

/** When and how long something was recorded, without hours: " from 2 March 2026 to 5 March 2026, for 3 days", " on 2 March 2026, for 5 hours". */
export function sayDays(clock: Clock, duration: number, locale: string | null): string {
  const [minutes, hours, days] = [60, 3600, 86_400].map((unit) => Math.round(duration / unit));
  const counted = (count: number, unit: string) => `${count} ${unit}${count === 1 ? "" : "s"}`;
  const long = minutes < 90 ? counted(Math.max(1, minutes), "minute") : hours < 48 ? counted(hours, "hour") : counted(days, "day");
  if (clock.kind === "elapsed") return ` for ${long}`;
  const format = dateTimeFormat(clock.zone, locale, { day: "numeric", month: "long", year: "numeric" });
  const [from, to] = [0, duration].map((t) => format.format(shifted(clock, t)));
  return from === to ? ` on ${from}, for ${long}` : ` from ${from} to ${to}, for ${long}`;
}

export const LOGGERS_TIME = "local time of the logger";

/** Whose time it is: said once beside the instants. */
export function sayClockZone(clock: Clock): string {
  if (clock.kind === "elapsed") return "time since the first row";
  return clock.zone === null ? LOGGERS_TIME : `time in ${clock.zone}`;
}

/** Days of a record, or times of its one day, its length, and whose clock that is: "2 – 5 Mar 2026, 3.0 days, local time of the logger". */
export function sayRecordTime(clock: Clock, duration: number, units: UnitChoice): string {
  const length = formatQuantity(duration, "time", units, 2);
  if (clock.kind === "elapsed") return `${length}, ${sayClockZone(clock)}`;
  const whole = { from: seconds(0), to: seconds(duration) };
  const days = dateTimeFormat(clock.zone, units.locale, DAY).formatRange(shifted(clock, 0), shifted(clock, duration));
  const within = sameDay(clock, whole, units.locale)
    ? `, ${sayTimeOfDay(clock, 0, units.locale)} to ${sayTimeOfDay(clock, duration, units.locale)}`
    : "";
  return `${days}${within}, ${length}, ${sayClockZone(clock)}`;
}

/** Days, hours, minutes, seconds since the first row: "00:03:04", "1 d 02:03:04". */
export function sayElapsed(t: number): string {
  const whole = Math.floor(Math.abs(t));
  const two = (n: number) => String(n).padStart(2, "0");
  const clock = `${two(Math.floor(whole / 3600) % 24)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  const days = Math.floor(whole / 86400);
  return `${t < 0 ? "\u2212" : ""}${days > 0 ? `${days}\u202fd ` : ""}${clock}`;
}

const DAY = { day: "numeric", month: "short", year: "numeric" } as const;
const CLOCK_TIME = { hour: "2-digit", minute: "2-digit", second: "2-digit", hourCycle: "h23" } as const;

const sayTimeOfDay = (clock: Clock & { kind: "absolute" }, t: number, locale: string | null) =>
  dateTimeFormat(clock.zone, locale, CLOCK_TIME).format(shifted(clock, t));

function sameDay(clock: Clock, span: Span, locale: string | null): clock is Clock & { kind: "absolute" } {
  if (clock.kind === "elapsed") return false;
  const day = dateTimeFormat(clock.zone, locale, { day: "numeric", month: "numeric", year: "numeric" });
  return day.format(shifted(clock, span.from)) === day.format(shifted(clock, span.to));
}

/** Not every engine knows offsets as time zones: an offset is added here and the result read as UTC. */
function shifted(clock: Clock & { kind: "absolute" }, t: number): Date {
  const match = clock.zone === null ? null : OFFSET.exec(clock.zone);
  const offset = match === null ? 0 : (match[1] === "-" ? -1 : 1) * (Number(match[2]) * 3600 + Number(match[3]) * 60);
  return new Date(Math.round((clock.epoch + t + offset) * 1000));
}

const made = new Map<string, Intl.DateTimeFormat>();

/** Formats are dear to make and few: each is made once. */
function dateTimeFormat(zone: string | null, locale: string | null, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const timeZone = zone === null || OFFSET.test(zone) ? "UTC" : zone;
  const key = `${locale}|${timeZone}|${Object.entries(options).join()}`;
  const known = made.get(key) ?? new Intl.DateTimeFormat(locale ?? "en-GB", { ...options, timeZone });
  made.set(key, known);
  return known;
}
