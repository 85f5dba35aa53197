import type { DateOrder } from "./stamp";

const NUMERIC_DATE = /^(\d{1,4})([-/. ])(\d{1,2})\2(\d{1,4})$/;
const TIME = /^(\d{1,2}):(\d{2})(?::(\d{2})([.,]\d+)?)?( ?)([ap]m)?(Z)?$/i;

/** The byte reader's pattern of a stamp, or null where its form is not one of the common ones. */
export function stampPattern(cell: string, order: DateOrder): string | null {
  const match = /^(\d{8}|\d{1,4}([-/.])\d{1,2}\2\d{1,4})(?:([T_]|, | )(.+))?$/.exec(cell);
  if (match === null) return timePattern(cell);
  const date = match[1].length === 8 && match[2] === undefined ? "YYYYMMDD" : datePattern(match[1], order);
  if (match[3] === undefined) return date;
  const time = timePattern(match[4]);
  return date === null || time === null ? null : `${date}${match[3]}${time}`;
}

function datePattern(text: string, order: DateOrder): string | null {
  const match = NUMERIC_DATE.exec(text);
  if (match === null) return null;
  const [, a, mark, , c] = match;
  if (a.length === 4) return order === "ydm" ? `YYYY${mark}DD${mark}MM` : `YYYY${mark}MM${mark}DD`;
  if (c.length === 4) return order === "mdy" ? `MM${mark}DD${mark}YYYY` : `DD${mark}MM${mark}YYYY`;
  if (a.length > 2 || c.length > 2) return null;
  if (order === "ymd") return a.length === 2 ? `YY${mark}MM${mark}DD` : null;
  return c.length !== 2 ? null : order === "mdy" ? `MM${mark}DD${mark}YY` : `DD${mark}MM${mark}YY`;
}

function timePattern(text: string): string | null {
  if (/^\d{6}Z?$/.test(text)) return text.length === 7 ? "hhmmssZ" : "hhmmss";
  const match = TIME.exec(text);
  if (match === null) return null;
  const [, , , second, fraction, blank, half, zulu] = match;
  const marks = second === undefined ? "hh:mm" : `hh:mm:ss${fraction?.[0] === "," ? ",f" : ".f"}`;
  if (blank !== "" && half === undefined) return null;
  return `${marks}${half === undefined ? "" : `${blank}PP`}${zulu === undefined ? "" : "Z"}`;
}

/** The pattern that most cells of a sample have; null where under half have one. */
export function commonPattern(sample: readonly string[], order: DateOrder): string | null {
  const counts = new Map<string, number>();
  const step = Math.max(1, Math.floor(sample.length / 200));
  let looked = 0;
  for (let i = 0; i < sample.length; i += step) {
    if (sample[i] === "") continue;
    looked++;
    const pattern = stampPattern(sample[i], order);
    if (pattern !== null) counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
  }
  let best: string | null = null;
  for (const [pattern, count] of counts) if (count > (best === null ? looked / 2 : counts.get(best)!)) best = pattern;
  return best;
}
