import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

type Step = ReportInput["document"]["advice"][number];

export function nextVisitSection({ document }: ReportInput): Markup | null {
  if (document.advice.length === 0) return null;
  return markup`<section><h2>Next visit</h2><ol>${document.advice.map(
    (
      step,
    ) => markup`<li><h3>${step.do}</h3>${step.cautions.length === 0 ? null : markup`<ul class="cautions">${step.cautions.map((caution) => markup`<li>${caution}</li>`)}</ul>`}
${amounts(step)}<p>Because ${step.because}</p>${step.expect === null ? null : markup`<p>Expected: ${step.expect}</p>`}<p>If this turns out to be wrong: ${step.ifWrong}</p>
${step.sources.length === 0 ? null : markup`<p class="note">Source: ${step.sources.join("; ")}.</p>`}</li>`,
  )}</ol></section>`;
}

/** Each amount with its calculation beneath it, and behind them which to trust. */
const amounts = ({ amounts: each, calculation }: Step): Markup | null =>
  each.length === 0
    ? null
    : markup`<p class="lead">Amount:</p><ul class="evidence">${each.map(
        (amount, i) => markup`<li>${amount}${i < calculation.length ? markup`<br><span class="note">${calculation[i]}</span>` : null}</li>`,
      )}</ul>`;
