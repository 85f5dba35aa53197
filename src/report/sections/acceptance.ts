import { ACCEPTANCE_WORDS, STATE_WORDS } from "../../../shared/wording/acceptance";
import { IN_REPORT } from "../../../shared/wording/report";
import { headRow, type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

/** One line a check: limit and where it comes from, what was measured, the verdict, or what would tell. */
export function acceptanceSection({ document }: ReportInput): Markup | null {
  if (document.acceptance.length === 0) return null;
  const rows = document.acceptance.map(
    (line) =>
      markup`<tr><th scope="row">${line.name}</th><td>${line.limit ?? ACCEPTANCE_WORDS.noLimit}</td><td>${line.value}</td><td><strong>${STATE_WORDS[line.state]}</strong>${line.wouldTell === null ? "" : ACCEPTANCE_WORDS.wouldTell(line.wouldTell)}</td></tr>`,
  );
  return markup`<section><h2>${IN_REPORT.acceptance.title}</h2>
<table class="checks">${headRow(IN_REPORT.acceptance.heads)}<tbody>${rows}</tbody></table>
<p class="note">${ACCEPTANCE_WORDS.note}</p></section>`;
}
