import { IN_REPORT } from "../../../shared/wording/report";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

/** The strongest come first; a healthy site has dozens of hints. */
const MOST_SHOWN = 8;

export function causesSection({ document }: ReportInput): Markup | null {
  const likely = document.causes.filter((cause, i) => i < 3 || cause.confidence >= 0.1);
  if (likely.length === 0) return null;
  return markup`<section><h2>${IN_REPORT.causes.title}</h2>${likely.map(
    (cause) => markup`<article><h3>${cause.name}: ${Math.round(cause.confidence * 100)}${"\u202f"}%</h3>
${list(IN_REPORT.causes.for, cause.for)}${list(IN_REPORT.causes.against, cause.against)}${cause.toSeparate === "" ? null : markup`<p>${IN_REPORT.causes.surer(cause.toSeparate)}</p>`}</article>`,
  )}<p class="note">${IN_REPORT.causes.note}</p></section>`;
}

const list = (title: string, items: readonly string[]): Markup | null =>
  items.length === 0
    ? null
    : markup`<p class="lead">${title}</p><ul class="evidence">${items.slice(0, MOST_SHOWN).map((item) => markup`<li>${item}</li>`)}${
        items.length > MOST_SHOWN ? markup`<li>${IN_REPORT.causes.moreEvidence(items.length - MOST_SHOWN)}</li>` : null
      }</ul>`;
