/** Anything of what is undone here: most stamps have none of it. */
const ODD = /[#[\u3000-\u9fff\uac00-\ud7af]|^\d{4}:\d{2}:\d{2}[ T]|^T[-+\u2212]\d|^\p{L}{3,6}\s?\d+[ ,]/u;

/** Prefix of a literal of IEC 61131-3: DT#2024-05-01-10:00:00, TOD#10:00:00, D#2024-05-01, T#90s, and their long names. */
const LITERAL = /(?<![\p{L}\d])(?:L?DT|DATE_AND_TIME|L?D|DATE|L?TOD|TIME_OF_DAY|L?T|TIME)#/giu;
/** A day counted from a start before a time of day. */
const DAY_COUNT = /^(?:day|tag|jour|d[ií]a|giorno|dag)\s?(\d{1,4})[ ,]\s?(?=\d{1,2}:\d{2})/i;
/** Year, month, day, hour, minute and second as Chinese, Japanese and Korean write them behind their numbers; common practice, no source. */
const COUNTED: readonly (readonly [RegExp, string])[] = [
  [/(\d)\s*[\u5e74\ub144\u6708\uc6d4]\s*/g, "$1-"],
  [/(\d)\s*[\u65e5\u53f7\uc77c]\s*/g, "$1 "],
  [/(\d)\s*[\u65f6\u6642\u70b9\uc2dc]\s*/g, "$1:"],
  [/(\d)\s*[\u5206\ubd84]\s*(?=\d)/g, "$1:"],
  [/(\d)\s*[\u5206\ubd84\u79d2\ucd08]/g, "$1"],
  [/(\d:)(?!\d)/g, "$100"],
];
const MORNING = /(?:\u4e0a\u5348|\u5348\u524d|\uc624\uc804)\s*([\d:.]+)/;
const AFTERNOON = /(?:\u4e0b\u5348|\u5348\u5f8c|\uc624\ud6c4)\s*([\d:.]+)/;
/** A day of the week in brackets. */
const WEEKDAY = /[(\uff08][\u65e5\u6708\u706b\u6c34\u6728\u91d1\u571f][)\uff09]|\u661f\u671f./g;

/** A stamp without the brackets, prefixes and marks that some programs and languages put round and into it; any other text as it is. */
export function plainStamp(text: string): string {
  if (!ODD.test(text)) return text;
  let plain = text.startsWith("[") && text.endsWith("]") ? text.slice(1, -1) : text;
  plain = plain.replace(LITERAL, "");
  // "T+00:00:10", time from a start
  plain = plain.replace(/^T(?=[-+\u2212]\d)/, "");
  // "Day 2 00:10:00", days from a start
  plain = plain.replace(DAY_COUNT, "$1 ");
  // "2024:05:01 10:15:00" as cameras write it
  plain = plain.replace(/^(\d{4}):(\d{2}):(?=\d{2}[ T])/, "$1-$2-");
  if (!/[\u3000-\u9fff\uac00-\ud7af]/.test(plain)) return plain;
  plain = plain.replace(WEEKDAY, " ");
  for (const [mark, mean] of COUNTED) plain = plain.replace(mark, mean);
  return plain
    .replace(MORNING, "$1 AM")
    .replace(AFTERNOON, "$1 PM")
    .replace(/-(?=\s|$)/g, "")
    .replace(/\s+/g, " ")
    .trim();
}
