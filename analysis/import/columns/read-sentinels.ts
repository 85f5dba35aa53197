import type { ImportQuestion } from "../../../shared/record/import-question";
import { firstUnread, numberSaid, speaksOf } from "../statement-words";
import type { ColumnFacts } from "./column-facts";
import { doubtfulSentinel, strangeSentinel, wholeSentinel } from "./sentinels";

/** The numbers of a column that stand for a missing value, and what has to be asked about them. */
export function readSentinels(
  { column, name, values, choice }: ColumnFacts,
  preamble: readonly string[],
): { sentinels: readonly number[]; questions: ImportQuestion[] } {
  if (choice.sentinel === "value") return { sentinels: [], questions: [] };
  const sure = values.sentinels;
  const told = marksIn(preamble).find((mark) => values.sorted.includes(mark)) ?? null;
  if (told !== null && choice.sentinel === null) return { sentinels: [...new Set([...values.sentinels, told])], questions: [] };
  const unclear = unclearMark(values.sorted, preamble);
  if (unclear !== null) {
    return {
      sentinels: [...new Set([...sure, unclear.number])],
      questions: choice.sentinel === null ? [lineQuestion(name, unclear)] : [],
    };
  }
  // a direction or a state of few values has no mark among them
  const isState = new Set(values.sorted).size <= 3;
  const strange = values.binary || isState ? null : (wholeSentinel(column.sample, values.sorted) ?? strangeSentinel(values.sorted));
  const doubtful = strange ?? (values.rising || values.binary || isState ? null : doubtfulSentinel(values.sorted));
  if (doubtful === null) return { sentinels: sure, questions: [] };
  const assumed = choice.sentinel ?? (strange === null ? "value" : "missing");
  const sentinels = assumed === "missing" ? [...sure, doubtful] : sure;
  return { sentinels, questions: choice.sentinel === null ? [sentinelQuestion(name, doubtful, assumed)] : [] };
}

const sentinelQuestion = (name: string, mark: number, assumed: "missing" | "value"): ImportQuestion => ({
  id: `sentinel:${name}`,
  text: `"${name}" holds ${mark} again and again, ${assumed === "missing" ? "far " : ""}away from its other values. Is that a reading or the mark of a missing one?`,
  options: ["value", "missing"],
  meaning: ["it is a reading", "it stands for no reading"],
  assumed,
});

const MARK_LINE =
  /(?:\b(?:missing|no ?data|null|fill|invalid|bad|error|fehlwert|fehlend\w*|ungültig\w*|manquant\w*|invalides?|faltante\w*|mancant\w*|ontbrekend\w*)\b)[^\d=:;-]{0,40}?(?:[=:;,]|\bis\b|\bare\b|\bas\b|\bby\b|\bist\b|\best\b)[^\d-]{0,12}(-?\d+(?:[.,]\d+)?)\W*$/i;

/** The number that a line names as the mark of a missing value; null where it names none. A count of missing rows is no mark. */
export function markIn(line: string): number | null {
  const mark = speaksOf("missing", line) ? MARK_LINE.exec(line)?.[1] : undefined;
  return mark === undefined ? null : Number(mark.replace(",", "."));
}

const marksIn = (preamble: readonly string[]): readonly number[] => preamble.flatMap((line) => markIn(line) ?? []);

/** A number at the edge of the values that a line names beside words for missing values, in a way not understood. */
function unclearMark(sorted: Float64Array, preamble: readonly string[]): { readonly line: string; readonly number: number } | null {
  const edges = [sorted[0], sorted[sorted.length - 1]];
  return firstUnread("missing", preamble, (line) => markIn(line) !== null || !edges.includes(numberSaid("missing", line) ?? Number.NaN));
}

const lineQuestion = (name: string, { line, number }: { readonly line: string; readonly number: number }): ImportQuestion => ({
  ...sentinelQuestion(name, number, "missing"),
  text: `"${line}" names ${number} and speaks of missing values, and "${name}" holds it. Is that a reading or the mark of a missing one?`,
});
