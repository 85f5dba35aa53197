import type { Span } from "../../shared/findings/span";
import type { Clock } from "../../shared/record/clock";
import { formatNumber } from "../../shared/units/format-quantity";

/** `day` stands where a new one begins or the axis starts, else null. */
export type TimeTick = { readonly at: number; readonly label: string; readonly day: string | null };

const MINUTE = 60;
const HOUR = 3600;
const DAY = 86400;
// biome-ignore format: a scale reads best in rows
const STEPS = [
  0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30,
  MINUTE, 2 * MINUTE, 5 * MINUTE, 10 * MINUTE, 15 * MINUTE, 30 * MINUTE, HOUR, 2 * HOUR, 3 * HOUR, 6 * HOUR, 12 * HOUR,
  DAY, 2 * DAY, 3 * DAY, 7 * DAY, 14 * DAY, 28 * DAY, 56 * DAY, 112 * DAY, 364 * DAY,
];

/** The finest step that leaves room for its labels; beyond a year doubled until it does. @param most number of ticks that fit, also as one reckoned from the step */
export function tickStep(length: number, most: number | ((step: number) => number)): number {
  const fits = (step: number) => length / step <= (typeof most === "number" ? most : most(step));
  let step = STEPS.find(fits) ?? 2 * STEPS[STEPS.length - 1];
  while (step < length && !fits(step)) step *= 2;
  return step;
}

/**
 * Ticks on round times of the site's clock, or on round times since the record began.
 * @param most number of ticks that fit, or how many with labels of so many letters
 */
export function timeTicks(
  window: Span,
  clock: Clock,
  elapsed: boolean,
  most: number | ((letters: number) => number),
  locale: string | null,
): readonly TimeTick[] {
  const isElapsed = clock.kind === "elapsed" || elapsed;
  const shift = isElapsed ? 0 : clock.epoch + zoneOffset(clock.zone, clock.epoch + (window.from + window.to) / 2);
  /** What stands at an instant of a step, and the day it belongs to. */
  const labelsAt = (unix: number, step: number): { readonly label: string; readonly day: string | null } => {
    if (isElapsed) return elapsedParts(elapsedLabel(unix, step, locale), step);
    const stamp = new Date(Math.round(unix * 1000));
    const day = step >= 14 * DAY ? dateLabel(stamp, locale) : dayLabel(stamp, locale);
    return step >= DAY ? { label: day, day: null } : { label: clockLabel(stamp, step, locale), day };
  };
  const lettersOf = (step: number) => Math.max(...[window.from, window.to].map((t) => labelsAt(t + shift, step).label.length));
  const step = tickStep(window.to - window.from, typeof most === "number" ? most : (of) => most(lettersOf(of)));
  const ticks: TimeTick[] = [];
  let before: string | null = null;
  for (let k = Math.ceil((window.from + shift) / step - 1e-9); k * step - shift <= window.to; k++) {
    const { label, day } = labelsAt(k * step, step);
    ticks.push({ at: k * step - shift, label, day: day === before ? null : day });
    before = day;
  }
  return ticks;
}

/** Room that a label of so many letters takes on an axis, px: letters of the size of an axis, and a gap to the next label. */
export const labelRoom = (letters: number, gap: number = LEAST_GAP): number => 7.4 * letters + gap;
const LEAST_GAP = 10;

/** How many labels of so many letters stand on an axis: two at least, on a wide one with more air between them. @param width of the plot, px */
export const labelsIn = (width: number, letters: number): number =>
  Math.max(2, width / labelRoom(letters, Math.max(LEAST_GAP, 0.045 * width)));

/** A tick in one row: the day with the time, or alone where it begins. */
export const inOneRow = ({ label, day }: TimeTick): string =>
  day === null ? label : /^00:00(:00)?$/.test(label) ? day : `${day} ${label}`;

/** "2 d 03:15" as the days in a row of their own, as on a clock's axis; where a step is days, these alone. */
function elapsedParts(text: string, step: number): { readonly label: string; readonly day: string | null } {
  const [days, time] = text.includes(" d ") ? text.split(/(?<= d) /) : [null, text];
  return step >= DAY ? { label: days ?? text, day: null } : { label: time, day: days };
}

const two = (n: number) => String(n).padStart(2, "0");
const decimalsOf = (step: number) => (step >= 1 ? 0 : step >= 0.1 ? 1 : 2);
const withDecimals = (s: number, decimals: number, locale: string | null) =>
  formatNumber(s, decimals, locale).padStart(decimals === 0 ? 2 : 3 + decimals, "0");

function clockLabel(stamp: Date, step: number, locale: string | null): string {
  const minutes = `${two(stamp.getUTCHours())}:${two(stamp.getUTCMinutes())}`;
  return step >= MINUTE
    ? minutes
    : `${minutes}:${withDecimals(stamp.getUTCSeconds() + stamp.getUTCMilliseconds() / 1000, decimalsOf(step), locale)}`;
}

const formatters = new Map<string, Intl.DateTimeFormat>();
function formatter(locale: string | null, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify([locale, options]);
  const made = formatters.get(key) ?? new Intl.DateTimeFormat(locale ?? "en-GB", options);
  formatters.set(key, made);
  return made;
}

/** "Tue, Mar 3" of a stamp of the site's clock read as UTC. */
export const dayLabel = (stamp: Date, locale: string | null): string =>
  formatter(locale, { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" }).format(stamp);

/** For steps of weeks the year matters and the weekday does not. */
const dateLabel = (stamp: Date, locale: string | null): string =>
  formatter(locale, { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" }).format(stamp);

/** Time since the record began: "2 d 03:15", "03:15:20", "00:00:20.5". @param step the resolution wanted, s */
export function elapsedLabel(at: number, step: number, locale: string | null): string {
  const decimals = decimalsOf(step);
  const size = Math.round(Math.abs(at) * 10 ** decimals) / 10 ** decimals;
  const days = Math.floor(size / DAY);
  const text = `${two(Math.floor((size % DAY) / HOUR))}:${two(Math.floor((size % HOUR) / MINUTE))}`;
  const precise = step < MINUTE ? `${text}:${withDecimals(size % MINUTE, decimals, locale)}` : text;
  return (at < 0 && size > 0 ? "\u2212" : "") + (days > 0 ? `${days} d ${precise}` : precise);
}

/** Offset of a zone from UTC at a Unix time, s; 0 where no zone is known (stamps are then the logger's own local time). */
export function zoneOffset(zone: string | null, unix: number): number {
  if (zone === null) return 0;
  const name = /^[+-]\d{2}:\d{2}$/.test(zone) ? `GMT${zone}` : zoneName(zone, unix);
  const written = /GMT([+-])(\d{2}):(\d{2})(?::(\d{2}))?/.exec(name);
  if (written === null) return 0;
  return (written[1] === "-" ? -1 : 1) * (Number(written[2]) * HOUR + Number(written[3]) * MINUTE + Number(written[4] ?? 0));
}

function zoneName(zone: string, unix: number): string {
  const parts = formatter("en-GB", { timeZone: zone, timeZoneName: "longOffset" }).formatToParts(new Date(unix * 1000));
  return parts.find(({ type }) => type === "timeZoneName")?.value ?? "";
}

/** An instant in words, with the day: "Tue 14 May 03:12:05". @param resolution the interval of the samples, s */
export function instantLabel(at: number, clock: Clock, elapsed: boolean, resolution: number, locale: string | null): string {
  const step = Math.min(1, resolution);
  if (clock.kind === "elapsed" || elapsed) return elapsedLabel(at, step, locale);
  const stamp = new Date(Math.round(localUnix(at, clock) * 1000));
  return `${dayLabel(stamp, locale)} ${clockLabel(stamp, step, locale)}`;
}

/** The site's clock at an instant, as if it were UTC, s. */
export function localUnix(at: number, clock: Extract<Clock, { kind: "absolute" }>): number {
  const unix = clock.epoch + at;
  return unix + zoneOffset(clock.zone, unix);
}
