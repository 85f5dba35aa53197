import type { Span } from "../../shared/findings/span";
import { type Clock, LONGEST_BELIEVED } from "../../shared/record/clock";
import { type Seconds, seconds } from "../../shared/units/quantity";

const DAY = 86_400;

/**
 * The hours of each night that lie in the record, local time, hours counted from midnight. A stamp without a zone is the logger's local time.
 * On the two days of a clock change they may be an hour off. Null for an elapsed clock, which knows no night, and for one that says more than a century.
 * O(days).
 */
export function nightsOf(clock: Clock, duration: Seconds, fromHour: number, toHour: number): Span[] | null {
  if (clock.kind === "elapsed" || duration > LONGEST_BELIEVED) return null;
  const offsetAt = offsetsOf(clock.zone);
  const nights: Span[] = [];
  const firstDay = Math.floor(clock.epoch / DAY) - 1;
  for (let day = firstDay; day * DAY <= clock.epoch + duration + DAY; day++) {
    const shift = offsetAt(day * DAY + DAY / 8);
    const from = Math.max(0, day * DAY + fromHour * 3600 - shift - clock.epoch);
    const to = Math.min(duration, day * DAY + toHour * 3600 - shift - clock.epoch);
    if (to > from) nights.push({ from: seconds(from), to: seconds(to) });
  }
  return nights;
}

/** Seconds by which local time of a zone runs ahead of UTC, by Unix time. */
function offsetsOf(zone: string | null): (unix: number) => number {
  if (zone === null) return () => 0;
  const fixed = /^([+-])(\d{2}):?(\d{2})$/.exec(zone);
  if (fixed !== null) {
    const offset = (fixed[1] === "-" ? -1 : 1) * (Number(fixed[2]) * 3600 + Number(fixed[3]) * 60);
    return () => offset;
  }
  const format = formatIn(zone);
  if (format === null) return () => 0;
  return (unix) => {
    const parts = new Map(format.formatToParts(unix * 1000).map(({ type, value }) => [type, Number(value)]));
    const of = (part: "year" | "month" | "day" | "hour" | "minute") => parts.get(part) ?? 0;
    return Math.round((Date.UTC(of("year"), of("month") - 1, of("day"), of("hour"), of("minute")) / 1000 - unix) / 60) * 60;
  };
}

/** Null for a zone that this machine does not know: the stamps are taken as they are. */
function formatIn(timeZone: string): Intl.DateTimeFormat | null {
  const numeric = "numeric";
  try {
    return new Intl.DateTimeFormat("en-US", {
      timeZone,
      hourCycle: "h23",
      year: numeric,
      month: numeric,
      day: numeric,
      hour: numeric,
      minute: numeric,
    });
  } catch {
    return null;
  }
}
