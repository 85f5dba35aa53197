import { fixedOffset } from "./zone-text";

/** Offsets of a zone over a span: `offsets[k]` seconds east of UTC hold from `from[k]` (Unix s) to the next; from[0] is minus infinity. */
export type ZoneOffsets = { readonly from: readonly number[]; readonly offsets: readonly number[] };

const WEEK = 7 * 86400;

/**
 * The few changes of a zone's offset in a span, from the platform's own zone data (Intl). Looked at week by week and narrowed to the second: a
 * rule that held for less than a week would be missed.
 * @param zone IANA name or fixed offset     @param from Unix s     @param to Unix s
 * @throws RangeError where the platform does not know the zone
 */
export function zoneOffsets(zone: string, from: number, to: number): ZoneOffsets {
  const fixed = fixedOffset(zone);
  if (fixed !== null) return { from: [Number.NEGATIVE_INFINITY], offsets: [fixed] };
  const offsetAt = offsetReader(zone);
  const starts = [Number.NEGATIVE_INFINITY];
  const offsets = [offsetAt(from - 2 * 86400)];
  const end = to + 2 * 86400;
  for (let at = from - 2 * 86400; at < end; at += WEEK) {
    const next = Math.min(at + WEEK, end);
    const offset = offsetAt(next);
    if (offset === offsets[offsets.length - 1]) continue;
    let [low, high] = [Math.floor(at), Math.ceil(next)];
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (offsetAt(middle) === offset) high = middle;
      else low = middle;
    }
    starts.push(high);
    offsets.push(offset);
  }
  return { from: starts, offsets };
}

/** Seconds east of UTC at a Unix time, read from the wall clock that Intl shows for it. */
function offsetReader(zone: string): (unix: number) => number {
  const format = new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    calendar: "iso8601",
    numberingSystem: "latn",
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
  });
  return (unix) => {
    const part: Record<string, number> = {};
    for (const { type, value } of format.formatToParts(unix * 1000)) part[type] = Number(value);
    return Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second) / 1000 - Math.floor(unix);
  };
}

/** How the rows of a civil clock became instants. */
export type CivilResult = {
  /** Local times that happened twice and were told apart by the rows before them. */
  readonly repeated: number;
  /** Local times that no clock of the zone showed: taken as if the offset before the change still held. */
  readonly missing: number;
};

/**
 * Civil seconds to Unix seconds in place. A local time that the zone repeats is the earlier one, unless the row before was already later than
 * that; so the hour is put in order by the rows themselves. `times` newest first must be turned round before.
 * @param times seconds as if UTC, shape [n]; NaN stays
 */
export function civilToUnix(times: Float64Array, zone: ZoneOffsets): CivilResult {
  const { from, offsets } = zone;
  let [repeated, missing, k] = [0, 0, 0];
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < times.length; i++) {
    const civil = times[i];
    if (Number.isNaN(civil)) continue;
    while (k + 1 < from.length && civil - offsets[k] >= from[k + 1]) k++;
    while (k > 0 && civil - offsets[k - 1] < from[k]) k--;
    // k is now the first regime whose end the stamp does not pass; the next may hold it too (a repeated hour)
    let instant = civil - offsets[k];
    if (k + 1 < from.length && civil - offsets[k + 1] >= from[k + 1]) {
      repeated++;
      if (instant <= last) instant = civil - offsets[k + 1];
    } else if (k > 0 && instant < from[k]) {
      missing++;
      instant = civil - offsets[k - 1];
    }
    times[i] = instant;
    last = instant;
  }
  return { repeated, missing };
}
