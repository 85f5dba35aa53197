import { ImportError } from "../../../shared/problems/import-problem";
import type { ImportQuestion } from "../../../shared/record/import-question";
import { RUNNING_AT } from "./column-choices";
import type { ColumnFacts } from "./column-facts";
import type { ColumnReading } from "./column-reading";
import { saysOff } from "./column-role";
import { twoLevels } from "./column-values";
import { toldOn } from "./flag-sense";

/**
 * A running flag in numbers, as 1 while the machine runs and 0 while it stands. Two numbers may be any two (0 and 100, 0 and 255, 1 and 2): which of them
 * is running the heading or a line above the table says, else it is the one that is not 0; of two that are both not 0 it is asked.
 */
export function readFlag(base: ColumnReading, facts: ColumnFacts, said: Pick<ColumnReading, "certainty" | "reason">): ColumnReading {
  const flag: ColumnReading = { ...base, quantity: "state", ...said };
  const levels = levelsOf(facts);
  if (levels === null) return flag;
  const [low, high] = levels;
  const rest = low === 0 || high === 0 ? 0 : null;
  const asked = facts.choice.onWord === null ? null : answered(facts, levels);
  const told = asked ?? toldOn(facts.text, levels);
  const on = told ?? (rest === null ? null : saysOff(facts.words) ? rest : low + high - rest);
  if (on === null) return facts.choice.role === null ? askWhich(flag, facts, levels) : flag;
  const off = low + high - on;
  const more: ColumnReading["reason"] =
    on === 1 && off === 0 ? [] : on === 0 && off === 1 ? [{ kind: "one-when-standing" }] : [{ kind: "number-when-running", on }];
  return { ...flag, factor: 1 / (on - off), offset: off === 0 ? 0 : -off / (on - off), reason: [...said.reason, ...more] };
}

/** The two numbers of a flag; of one that never changes, that and 0. Null where there are more. */
function levelsOf({ values }: ColumnFacts): readonly [number, number] | null {
  const { low, high } = values;
  if (low !== high) return twoLevels(values);
  return low === 0 ? [0, 1] : low < 0 ? [low, 0] : [0, low];
}

const optionsOf = (levels: readonly number[]) => [...levels.map((level) => `${RUNNING_AT}${level}`), "other"];

function answered({ name, choice: { onWord } }: ColumnFacts, levels: readonly [number, number]): number {
  const level = levels.find((one) => String(one) === onWord);
  if (level !== undefined) return level;
  const answer = `${RUNNING_AT}${onWord}`;
  throw new ImportError({ id: "unknown-answer", question: `column-role:${name}`, answer, options: optionsOf(levels) });
}

/** Neither of the two is 0: the column is left out until a person says which of them is running. */
function askWhich(flag: ColumnReading, { name }: ColumnFacts, levels: readonly [number, number]): ColumnReading {
  const question: ImportQuestion = {
    id: `column-role:${name}`,
    asks: { kind: "running-number", name, levels },
    options: optionsOf(levels),
    assumed: "other",
  };
  return { ...flag, role: "other", quantity: "none", certainty: 0.6, questions: [...flag.questions, question] };
}
