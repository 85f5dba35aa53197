import { IN_REPORT } from "../../../shared/wording/report";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

type Step = ReportInput["document"]["advice"][number];

export function nextVisitSection({ document }: ReportInput): Markup | null {
  if (document.advice.length === 0) return null;
  return markup`<section><h2>${IN_REPORT.nextVisit.title}</h2><ol>${document.advice.map(
    (
      step,
    ) => markup`<li><h3>${step.do}</h3>${step.cautions.length === 0 ? null : markup`<ul class="cautions">${step.cautions.map((caution) => markup`<li>${caution}</li>`)}</ul>`}
${amounts(step)}<p>${IN_REPORT.nextVisit.because(step.because)}</p>${step.expect === null ? null : markup`<p>${IN_REPORT.nextVisit.expected(step.expect)}</p>`}<p>${IN_REPORT.nextVisit.ifWrong(step.ifWrong)}</p>
${step.sources.length === 0 ? null : markup`<p class="note">${IN_REPORT.nextVisit.source(step.sources)}</p>`}</li>`,
  )}</ol></section>`;
}

/** Each amount with its calculation beneath it, and behind them which to trust. */
const amounts = ({ amounts: each, calculation }: Step): Markup | null =>
  each.length === 0
    ? null
    : markup`<p class="lead">${IN_REPORT.nextVisit.amount}</p><ul class="evidence">${each.map(
        (amount, i) => markup`<li>${amount}${i < calculation.length ? markup`<br><span class="note">${calculation[i]}</span>` : null}</li>`,
      )}</ul>`;
