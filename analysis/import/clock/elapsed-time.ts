import { plainStamp } from "./stamp-marks";

const CLOCK = /^([+-]?)\s*(\d+):(\d{1,2})(?::(\d{1,2}(?:[.,]\d+)?))?$/;
const DAYS =
  /^([+-]?)\s*(\d+)(?:\s*(?:d|days?|tage?|jours?|j|dias?|giorni|g|dagen)?[ .,T]\s*|:(?=\d+:\d+:\d))(\d{1,2}):(\d{1,2})(?::(\d{1,2}(?:[.,]\d+)?))?$/i;
const WORDED =
  /^([+-]?)(?:(\d+)\s*(?:d|days?|tage?|j))?\s*(?:(\d+)\s*(?:h|hrs?|std))?\s*(?:(\d+)\s*(?:m|min|mn))?\s*(?:(\d+(?:[.,]\d+)?)\s*(?:s|sec|sek))?$/i;
const ISO = /^P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:[.,]\d+)?)S)?)?$/;

const field = (text: string | undefined) => (text === undefined ? 0 : Number(text.replace(",", ".")));

/**
 * An elapsed time to seconds: h:mm:ss with any number of hours, d hh:mm:ss, d.hh:mm:ss, "1h 02m 03s", ISO 8601 durations. Two fields are hours and
 * minutes, or minutes and seconds where `minutesFirst`. Null where it is none.
 */
export function readDuration(given: string, minutesFirst = false): number | null {
  const text = plainStamp(given);
  const clock = CLOCK.exec(text);
  if (clock !== null) {
    const [, sign, a, b, c] = clock;
    if (Number(b) > 59 || (c !== undefined && field(c) >= 61)) return null;
    const seconds = c === undefined && minutesFirst ? field(a) * 60 + field(b) : field(a) * 3600 + field(b) * 60 + field(c);
    return sign === "-" ? -seconds : seconds;
  }
  const days = DAYS.exec(text);
  if (days !== null) {
    const [, sign, d, h, m, s] = days;
    if (Number(h) > 24 || Number(m) > 59 || field(s) >= 61) return null;
    return (sign === "-" ? -1 : 1) * (field(d) * 86400 + field(h) * 3600 + field(m) * 60 + field(s));
  }
  const short = /^(\d+):(\d{1,2}[.,]\d+)$/.exec(text);
  if (short !== null) return field(short[2]) < 60 ? field(short[1]) * 60 + field(short[2]) : null;
  const worded = WORDED.exec(text) ?? null;
  if (worded?.slice(2).some((part) => part !== undefined)) {
    const [, sign, d, h, m, s] = worded;
    return (sign === "-" ? -1 : 1) * (field(d) * 86400 + field(h) * 3600 + field(m) * 60 + field(s));
  }
  const iso = ISO.exec(text);
  return iso === null || text.length < 3 ? null : field(iso[1]) * 86400 + field(iso[2]) * 3600 + field(iso[3]) * 60 + field(iso[4]);
}
