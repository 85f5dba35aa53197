import { IN_REPORT } from "../../../shared/wording/report";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

export function cannotShowSection({ document }: ReportInput): Markup | null {
  const { cannotTell, failures } = document;
  if (cannotTell.length + failures.length === 0) return null;
  const list = (lines: readonly { readonly text: string }[]) => markup`<ul>${lines.map(({ text }) => markup`<li>${text}</li>`)}</ul>`;
  return markup`<section>${cannotTell.length === 0 ? null : markup`<h2>${IN_REPORT.cannotShow.title}</h2>${list(cannotTell)}`}${
    failures.length === 0 ? null : markup`<h2>${IN_REPORT.cannotShow.failed}</h2>${list(failures)}`
  }</section>`;
}
