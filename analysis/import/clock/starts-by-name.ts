import type { ImportChoices } from "../import-choices";
import { dateInName } from "./named-date";
import { stampSeconds } from "./stamp";
import { readStamp } from "./stamp-text";

const dayOf = (date: string) => Date.parse(`${date}T00:00:00Z`) / 1000;

/**
 * The choices for each of several files when a person says when the log starts: the answer is that of the file with the earliest date in its name, and
 * files named by later dates start so many days later. Without such names, or without an answer, all files are read by the same choices.
 */
export function startsByName(files: readonly string[], choices: ImportChoices): readonly ImportChoices[] {
  const answer = choices.answers["start-time"];
  const dates = files.map(dateInName);
  const known = dates.flatMap((date) => (date === null ? [] : [dayOf(date)]));
  const stamp = answer === undefined ? null : readStamp(answer.replace(/^(\d{4}-\d{2}-\d{2})T/, "$1 "), "ymd");
  const start = stamp === null ? Number.NaN : stampSeconds(stamp);
  if (known.length < 2 || Number.isNaN(start)) return files.map(() => choices);
  const earliest = known.reduce((least, day) => Math.min(least, day), Number.POSITIVE_INFINITY);
  return dates.map((date) => {
    const later = date === null ? 0 : dayOf(date) - earliest;
    if (later === 0) return choices;
    // the day alone moves: the hour and the offset are as the person wrote them
    const moved = new Date((start + later) * 1000).toISOString().slice(0, 10);
    return { ...choices, answers: { ...choices.answers, "start-time": answer.replace(/^\s*\d{4}-\d{2}-\d{2}/, moved) } };
  });
}
