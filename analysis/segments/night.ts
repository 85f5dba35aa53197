import type { Span } from "../../shared/findings/span";
import type { Clock } from "../../shared/record/clock";
import { type Seconds, seconds } from "../../shared/units/quantity";

const DAY = 86_400;

/**
 * The hours of each night that lie in the record, local time, hours counted from midnight. A stamp without a zone is the logger's local time.
 * On the two days of a clock change they may be an hour off. Null for an elapsed clock, which knows no night.
 */
export function nightsOf(clock: Clock, duration: Seconds, fromHour: number, toHour: number): Span[] | null {
  if (clock.kind === "elapsed") return null;
  const nights: Span[] = [];
  const firstDay = Math.floor(clock.epoch / DAY) - 1;
  for (let day = firstDay; day * DAY <= clock.epoch + duration + DAY; day++) {
    const shift = offsetAt(clock.zone, day * DAY + DAY / 8);
    const from = Math.max(0, day * DAY + fromHour * 3600 - shift - clock.epoch);
    const to = Math.min(duration, day * DAY + toHour * 3600 - shift - clock.epoch);
    if (to > from) nights.push({ from: seconds(from), to: seconds(to) });
  }
  return nights;
}

/** Seconds by which local time runs ahead of UTC. */
function offsetAt(zone: string | null, unix: number): number {
  if (zone === null) return 0;
  const fixed = /^([+-])(\d{2}):?(\d{2})$/.exec(zone);
  if (fixed !== null) return (fixed[1] === "-" ? -1 : 1) * (Number(fixed[2]) * 3600 + Number(fixed[3]) * 60);
  try {
    const format = new Intl.DateTimeFormat("en-US", {
      timeZone: zone,
      hourCycle: "h23",
      year: "numeric",
      month: "numeric",
      day: "numeric",
      hour: "numeric",
      minute: "numeric",
    });
    const parts = new Map(format.formatToParts(unix * 1000).map(({ type, value }) => [type, Number(value)]));
    const local = Date.UTC(
      parts.get("year") ?? 0,
      (parts.get("month") ?? 1) - 1,
      parts.get("day") ?? 1,
      parts.get("hour") ?? 0,
      parts.get("minute") ?? 0,
    );
    return Math.round((local / 1000 - unix) / 60) * 60;
  } catch {
    return 0; // a zone that this machine does not know: the stamps are taken as they are
  }
}
