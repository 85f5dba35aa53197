import type { ChannelRole } from "../../../shared/record/channel-role";
import type { ImportQuestion } from "../../../shared/record/import-question";
import type { MarkStands } from "../../../shared/wording/column-question";
import { firstUnread, numberSaid, speaksOf } from "../statement-words";
import type { ColumnFacts } from "./column-facts";
import { findPosition } from "./position-words";
import { doubtfulSentinel, isUsualMark, negativeSentinel, strangeSentinel, wholeSentinel } from "./sentinels";

/** A flow turned round, or a level under its zero, shows many numbers; the others cannot be below 0 at all. */
const NEVER_BELOW_0: ReadonlySet<ChannelRole> = new Set(["flow", "speed", "current", "power", "level", "volume"]);
/** No quantity of a pumped water system comes to such a number in any unit. */
const MOST_OF_ANYTHING = 1e15;
/** A suction lifts, and a difference has two directions. */
const MAY_BE_BELOW_0 = /^(?:suction|difference)/;

/** The numbers of a column that stand for a missing value, and what has to be asked about them. */
export function readSentinels(
  facts: ColumnFacts,
  preamble: readonly string[],
): { sentinels: readonly number[]; questions: ImportQuestion[] } {
  const { name, values, choice } = facts;
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
  const stray = strayMark(facts);
  if (stray !== null && Math.abs(stray.number) > MOST_OF_ANYTHING) return { sentinels: [...sure, stray.number], questions: [] };
  if (stray === null) return { sentinels: sure, questions: [] };
  const assumed = choice.sentinel ?? stray.assumed;
  const sentinels = assumed === "missing" ? [...sure, stray.number] : sure;
  return { sentinels, questions: choice.sentinel === null ? [sentinelQuestion(name, stray, assumed)] : [] };
}

/** A number that may be the mark of a missing value, where it stands in words, and what is likelier. */
type StrayMark = { readonly number: number; readonly stands: MarkStands; readonly assumed: "missing" | "value" };

function strayMark({ column, values, choice, guess, place }: ColumnFacts): StrayMark | null {
  const { sorted } = values;
  // a direction or a state of few values has no mark among them
  if (values.binary || new Set(sorted).size <= 3) return null;
  const strange = wholeSentinel(column.sample, sorted) ?? strangeSentinel(sorted);
  if (strange !== null) return { number: strange, stands: "far", assumed: "missing" };
  const role = choice.role ?? guess.role;
  const negative =
    NEVER_BELOW_0.has(role) || (role === "pressure" && !MAY_BE_BELOW_0.test(findPosition(place) ?? "")) ? negativeSentinel(sorted) : null;
  // a vacuum is a reading too
  if (negative !== null) return { number: negative, stands: "below-zero", assumed: role === "pressure" ? "value" : "missing" };
  const doubtful = values.rising ? null : doubtfulSentinel(sorted);
  return doubtful === null ? null : { number: doubtful, stands: "away", assumed: "value" };
}

const sentinelQuestion = (name: string, { number, stands }: Omit<StrayMark, "assumed">, assumed: "missing" | "value"): ImportQuestion => ({
  id: `sentinel:${name}`,
  asks: { kind: "sentinel", name, number, stands },
  options: ["value", "missing"],
  assumed,
});

const MARK_LINE =
  /(?:\b(?:missing|no ?data|null|fill|invalid|bad|error|fehlwert|fehlend\w*|ungültig\w*|manquant\w*|invalides?|faltante\w*|mancant\w*|ontbrekend\w*)\b)[^\d=:;-]{0,40}?(?:[=:;,]|\bis\b|\bare\b|\bas\b|\bby\b|\bist\b|\best\b)[^\d-]{0,12}(-?\d+(?:[.,]\d+)?)\W*$/i;

/** The number that a line names as the mark of a missing value; null where it names none. A count of missing rows is no mark. */
export function markIn(line: string): number | null {
  const mark = speaksOf("missing", line) ? MARK_LINE.exec(line)?.[1] : undefined;
  if (mark !== undefined) return Number(mark.replace(",", "."));
  // in whatever words: nobody counts rows below 0, or just as many as a usual mark
  const said = numberSaid("missing", line);
  return said !== null && (said < 0 || isUsualMark(said)) ? said : null;
}

const marksIn = (preamble: readonly string[]): readonly number[] => preamble.flatMap((line) => markIn(line) ?? []);

/** A number at the edge of the values that a line names beside words for missing values, in a way not understood. */
function unclearMark(sorted: Float64Array, preamble: readonly string[]): { readonly line: string; readonly number: number } | null {
  const edges = [sorted[0], sorted[sorted.length - 1]];
  return firstUnread("missing", preamble, (line) => markIn(line) !== null || !edges.includes(numberSaid("missing", line) ?? Number.NaN));
}

const lineQuestion = (name: string, { line, number }: { readonly line: string; readonly number: number }): ImportQuestion => ({
  ...sentinelQuestion(name, { number, stands: "away" }, "missing"),
  asks: { kind: "sentinel-line", name, number, line },
});
