import { IN_REPORT } from "../../../shared/wording/report";
import { levelsOf } from "../levels";
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
  const alternative = IN_REPORT.trace.alternative(trace.channels.map((c) => c.heading));
  const ticks = labels.ticks(trace.fromS, trace.toS);
  return markup`<section><h2>${IN_REPORT.trace.title}</h2>${drawTrace({ trace, units, ticks, levels: levelsOf(input), shaded, alternative, isSmall: false })}
<p class="note">${IN_REPORT.trace.howDrawn(labels.zoneNote)}</p></section>`;
}
