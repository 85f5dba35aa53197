import { levelsOf } from "../levels";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";
import { timeLabels } from "../time-labels";
import { drawTrace } from "../trace-picture";

/** Every finding with its method and what would make it wrong; those over a limit with the stretch that shows it. */
export function findingsSection(input: ReportInput): Markup | null {
  const { document, closeUps } = input;
  if (document.findings.length === 0) return null;
  return markup`<section><h2>Findings</h2>${document.findings.map((f, i) => {
    const close = closeUps.find((c) => c.finding === i);
    return markup`<article><h3>${f.overLimit === true ? "Over the limit: " : ""}${f.title}</h3><p>${f.text}</p>
${close === undefined ? null : closeUp(input, f, close.trace)}
<p class="note">How computed: ${f.method} From: ${f.basis}. What would make it wrong: ${f.wrongIf}${f.sharpenedBy === null ? "" : ` It would be sharper with ${f.sharpenedBy}.`}</p></article>`;
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
    alternative: `The stretch that shows it most, ${labels.say(trace.fromS, trace.toS)}: ${title}`,
    isSmall: true,
  });
}
