import { IN_REPORT } from "../../../shared/wording/report";
import { levelsOf } from "../levels";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";
import { timeLabels } from "../time-labels";
import { drawTrace } from "../trace-picture";

/** Every finding with its method and what would make it wrong; those over a limit with the stretch that shows it. */
export function findingsSection(input: ReportInput): Markup | null {
  const { document, closeUps } = input;
  if (document.findings.length === 0) return null;
  return markup`<section><h2>${IN_REPORT.findings.title}</h2>${document.findings.map((f, i) => {
    const close = closeUps.find((c) => c.finding === i);
    return markup`<article><h3>${f.overLimit === true ? IN_REPORT.findings.over : ""}${f.title}</h3><p>${f.text}</p>
${close === undefined ? null : closeUp(input, f, close.trace)}
<p class="note">${IN_REPORT.findings.howComputed(f.method, f.basis, f.wrongIf)}${f.sharpenedBy === null ? "" : IN_REPORT.findings.sharper(f.sharpenedBy)}</p></article>`;
  })}</section>`;
}

function closeUp(input: ReportInput, { title, places }: ReportInput["document"]["findings"][number], trace: ReportInput["trace"]): Markup {
  const labels = timeLabels(input.document, input.units.locale);
  return drawTrace({
    trace,
    units: input.units,
    ticks: labels.ticks(trace.fromS, trace.toS),
    levels: levelsOf(input),
    shaded: places.map((p) => ({ from: labels.secondsOf(p.from), to: labels.secondsOf(p.to) })),
    alternative: IN_REPORT.findings.closeUp(labels.say(trace.fromS, trace.toS), title),
    isSmall: true,
  });
}
