import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

export function nextVisitSection({ document }: ReportInput): Markup | null {
  if (document.advice.length === 0) return null;
  return markup`<section><h2>Next visit</h2><ol>${document.advice.map(
    (
      step,
    ) => markup`<li><h3>${step.do}</h3>${step.cautions.length === 0 ? null : markup`<ul class="cautions">${step.cautions.map((caution) => markup`<li>${caution}</li>`)}</ul>`}
${step.amount === null ? null : markup`<p>Amount: ${step.amount}</p>`}${step.calculation.length === 0 ? null : markup`<ul class="calculation">${step.calculation.map((line) => markup`<li>${line}</li>`)}</ul>`}<p>Because ${step.because}</p>${step.expect === null ? null : markup`<p>Expected: ${step.expect}</p>`}<p>If this turns out to be wrong: ${step.ifWrong}</p>
${step.sources.length === 0 ? null : markup`<p class="note">Source: ${step.sources.join("; ")}.</p>`}</li>`,
  )}</ol></section>`;
}
