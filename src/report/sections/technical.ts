import { formatMeasured, formatQuantity } from "../../../shared/units/format-quantity";
import { MEASURES, VERDICT_WORDS, WHY_NOT_COMPARED } from "../../../shared/wording/comparison";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";
import { timeLabels } from "../time-labels";
import { drawTrace } from "../trace-picture";

/** The whole record, every channel, with the stretches of the findings that break a limit shaded. */
export function traceSection(input: ReportInput): Markup {
  const { trace, units, document } = input;
  const labels = timeLabels(document, input.units.locale);
  const shaded = document.findings.flatMap((f) =>
    f.overLimit === true ? f.places.slice(0, 200).map((p) => ({ from: labels.secondsOf(p.from), to: labels.secondsOf(p.to) })) : [],
  );
  const alternative = `The recorded channels (${trace.channels.map((c) => c.heading).join(", ")}) over the whole record, with the stretches of the findings shaded`;
  return markup`<section class="page"><h2>The record</h2>${drawTrace({ trace, units, labelAt: labels.labelAt, shaded, alternative })}
<p class="note">Least to greatest value of each column of the picture; shaded: where a finding breaks a limit. Times: ${labels.zoneNote}.</p></section>`;
}

export function findingsSection(input: ReportInput): Markup | null {
  const { document, closeUps, units } = input;
  if (document.findings.length === 0) return null;
  const labels = timeLabels(document, input.units.locale);
  return markup`<section class="page"><h2>Findings</h2>${document.findings.map((f, i) => {
    const close = closeUps.find((c) => c.finding === i);
    const shaded = f.places.map((p) => ({ from: labels.secondsOf(p.from), to: labels.secondsOf(p.to) }));
    return markup`<article><h3>${f.overLimit === true ? "Over the limit: " : ""}${f.title}</h3><p>${f.text}</p>
${close === undefined ? null : drawTrace({ trace: close.trace, units, labelAt: labels.labelAt, shaded, alternative: `The stretch that shows it most: ${f.title}` })}
<p class="note">How computed: ${f.method} From: ${f.basis}. What would make it wrong: ${f.wrongIf}${f.sharpenedBy === null ? "" : ` It would be sharper with ${f.sharpenedBy}.`}</p></article>`;
  })}</section>`;
}

export function beforeAndAfterSection({ comparison, units }: ReportInput): Markup | null {
  if (comparison === null) return null;
  const { measures, overall, matchedShare, hiddenBelowPeriodS } = comparison.comparison;
  const rows = measures.map((m) => {
    const { name, shown } = MEASURES[m.id];
    const write = (q: typeof m.before) => (q === null ? "not known" : formatMeasured(q, shown, units));
    const verdict = m.because === null ? VERDICT_WORDS[m.verdict] : `${VERDICT_WORDS[m.verdict]}: ${WHY_NOT_COMPARED[m.because]}`;
    return markup`<tr><th scope="row">${name}</th><td>${write(m.before)}</td><td>${write(m.after)}</td><td>${write(m.difference)}</td><td>${m.limit === null ? "none" : formatQuantity(m.limit, shown, units)}</td><td>${verdict}</td></tr>`;
  });
  return markup`<section class="page"><h2>Before and after</h2><p><strong>${VERDICT_WORDS[overall]}.</strong> Before: ${comparison.beforeName}. After: ${comparison.afterName}.</p>
<table><thead><tr><th scope="col">Measure</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Difference</th><th scope="col">Limit</th><th scope="col">Verdict</th></tr></thead><tbody>${rows}</tbody></table>
<p class="note">In brackets: 95 % intervals by block bootstrap.${matchedShare === null ? "" : ` Weighed to a like demand; ${formatQuantity(matchedShare, "fraction", units, 2)} of the hours had one to set against.`}${hiddenBelowPeriodS === null ? "" : ` The slower logger could not show periods under ${formatQuantity(hiddenBelowPeriodS, "time", units, 2)}; these are left out of both.`}</p></section>`;
}

export function causesSection({ document }: ReportInput): Markup | null {
  const likely = document.causes.filter((cause, i) => i < 3 || cause.confidence >= 0.1);
  if (likely.length === 0) return null;
  return markup`<section class="page"><h2>Causes, likeliest first</h2>${likely.map(
    (cause) => markup`<article><h3>${cause.name}: ${Math.round(cause.confidence * 100)}${"\u202f"}%</h3>
${list("For", cause.for)}${list("Against", cause.against)}${cause.toSeparate === "" ? null : markup`<p>To be surer: ${cause.toSeparate}</p>`}</article>`,
  )}<p class="note">Confidences over all causes, "healthy" among them, sum to 100${"\u202f"}%; they are calibrated on simulated sites.</p></section>`;
}

const list = (title: string, items: readonly string[]): Markup | null =>
  items.length === 0 ? null : markup`<p>${title}:</p><ul>${items.map((item) => markup`<li>${item}</li>`)}</ul>`;

export function nextVisitSection({ document }: ReportInput): Markup | null {
  if (document.advice.length === 0) return null;
  return markup`<section class="page"><h2>Next visit</h2><ol>${document.advice.map(
    (
      step,
    ) => markup`<li><h3>${step.do}</h3>${step.cautions.length === 0 ? null : markup`<ul>${step.cautions.map((caution) => markup`<li class="caution">${caution}</li>`)}</ul>`}
${step.amount === null ? null : markup`<p>Amount: ${step.amount}</p>`}<p>Because ${step.because}</p>${step.expect === null ? null : markup`<p>Expected: ${step.expect}</p>`}
${step.sources.length === 0 ? null : markup`<p class="note">Source: ${step.sources.join("; ")}.</p>`}</li>`,
  )}</ol></section>`;
}

export function cannotShowSection({ document }: ReportInput): Markup | null {
  if (document.cannotTell.length === 0) return null;
  return markup`<section><h2>What this log cannot show</h2><ul>${document.cannotTell.map((c) => markup`<li>${c.text}</li>`)}</ul></section>`;
}
