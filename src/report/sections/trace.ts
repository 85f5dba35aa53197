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
  const alternative = `The recorded channels (${trace.channels.map((c) => c.heading).join(", ")}) over the whole record, with the stretches of the findings shaded`;
  const ticks = labels.ticks(trace.fromS, trace.toS);
  return markup`<section><h2>The record</h2>${drawTrace({ trace, units, ticks, levels: levelsOf(input), shaded, alternative, isSmall: false })}
<p class="note">Least to greatest value of each column of the picture; shaded: where a finding breaks a limit. Dashed: set pressure, with its band, and the tank's marked pressure where the record comes near it. Times: ${labels.zoneNote}.</p></section>`;
}
