import type { ImportChoices } from "../../../analysis/import/import-log";
import type { ChannelRole } from "../../../shared/record/channel-role";
import type { FileLayout } from "../../../shared/record/file-layout";
import type { ImportQuestion } from "../../../shared/record/import-question";

type Column = FileLayout["columns"][number];

/** The choices with one question answered; an empty answer takes the answer back. */
export function answer(choices: ImportChoices, id: string, value: string): ImportChoices {
  const others = Object.entries(choices.answers).filter(([known]) => known !== id);
  return { ...choices, answers: Object.fromEntries(value.trim() === "" ? others : [...others, [id, value.trim()]]) };
}

/** The choices with role and unit of one column set. A role change lets go of the unit: psi says nothing about a flow. */
export function chooseColumn(choices: ImportChoices, heading: string, role: ChannelRole, unit: string | null): ImportChoices {
  const others = choices.columns.filter((column) => column.heading !== heading);
  return { ...choices, columns: [...others, { heading, role, unit }] };
}

/** The choices with a column back to what was read off the file. */
export function forgetColumn(choices: ImportChoices, heading: string): ImportChoices {
  return { ...choices, columns: choices.columns.filter((column) => column.heading !== heading) };
}

/** A layout as it will read with these choices: shown at once, while the file is read again. */
export function withChoices(layout: FileLayout, choices: ImportChoices): FileLayout {
  return { ...layout, columns: layout.columns.map((column) => chosenColumn(column, choices)) };
}

function chosenColumn(column: Column, choices: ImportChoices): Column {
  const chosen = choices.columns.find(({ heading }) => heading === column.heading);
  if (chosen === undefined) return column;
  const unit = chosen.unit ?? (chosen.role === column.role ? column.unit : null);
  return { ...column, role: chosen.role, unit, certainty: 1, reason: [{ kind: "chosen-just-now" }] };
}

/** Whether a person decided anything: only then is there something to remember or to lose. */
export const hasChoices = (choices: ImportChoices): boolean => choices.columns.length > 0 || Object.keys(choices.answers).length > 0;

/** Questions nobody has answered yet, in the order asked. */
export const openQuestions = (questions: readonly ImportQuestion[], choices: ImportChoices): readonly ImportQuestion[] =>
  questions.filter((question) => !Object.hasOwn(choices.answers, question.id));
