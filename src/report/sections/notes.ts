import { ADVICE_IDS, type AdviceId } from "../../../shared/findings/advice";
import { ADVICE_FOR_CUSTOMER } from "../../../shared/wording/customer";
import { IN_REPORT } from "../../../shared/wording/report";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

const isAdvice = (id: string): id is AdviceId => ADVICE_IDS.some((known) => known === id);

/** What was ticked and noted on site, in the words of whoever wrote it; null where nothing was. */
export function notesSection({ checklist: { entries, notes }, document }: ReportInput): Markup | null {
  if (entries.length === 0 && notes.trim() === "") return null;
  const nameOf = (step: string) =>
    document.advice.find(({ id }) => id === step)?.do ?? (isAdvice(step) ? ADVICE_FOR_CUSTOMER[step].does : step);
  const list = entries.map(
    ({ step, done, note }) =>
      markup`<li>${nameOf(step)} <strong>${done ? IN_REPORT.notes.done : IN_REPORT.notes.notDone}.</strong>${note === "" ? "" : ` ${note}`}</li>`,
  );
  return markup`<section><h2>${IN_REPORT.notes.title}</h2>${list.length === 0 ? null : markup`<ul class="evidence">${list}</ul>`}${
    notes.trim() === "" ? null : markup`<p class="written">${notes}</p>`
  }</section>`;
}
