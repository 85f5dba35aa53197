import type { ImportQuestion } from "../../../shared/record/import-question";
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

/** Numbers that the lines above the table name as the mark of a missing value. */
const marksIn = (preamble: readonly string[]): readonly number[] =>
  preamble.flatMap((line) => {
    const mark = MARK_LINE.exec(line)?.[1];
    return mark === undefined ? [] : [Number(mark.replace(",", "."))];
  });
