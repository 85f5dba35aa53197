import { formatMeasured, formatQuantity } from "../../../shared/units/format-quantity";
import { MEASURES, sayHowCompared, VERDICT_WORDS, WHY_NOT_COMPARED } from "../../../shared/wording/comparison";
import { IN_REPORT } from "../../../shared/wording/report";
import { headRow, type Markup, markup } from "../markup";
import { drawOverlay } from "../overlay-picture";
import type { ReportInput } from "../report-input";

export function beforeAndAfterSection({ comparison, units }: ReportInput): Markup | null {
  if (comparison === null) return null;
  const { measures, overall } = comparison.comparison;
  const rows = measures.map((m) => {
    const { name, shown } = MEASURES[m.id];
    const write = (q: typeof m.before) => (q === null ? IN_REPORT.notKnown : formatMeasured(q, shown, units));
    const verdict = m.because === null ? VERDICT_WORDS[m.verdict] : `${VERDICT_WORDS[m.verdict]}: ${WHY_NOT_COMPARED[m.because]}`;
    return markup`<tr><th scope="row">${name}</th><td>${write(m.before)}</td><td>${write(m.after)}</td><td>${write(m.difference)}</td><td>${m.limit === null ? IN_REPORT.none : formatQuantity(m.limit, shown, units)}</td><td>${verdict}</td></tr>`;
  });
  return markup`<section><h2>${IN_REPORT.comparison.title}</h2><p><strong>${VERDICT_WORDS[overall]}.</strong>${IN_REPORT.comparison.which(comparison.beforeName, comparison.afterName)}</p>
<table>${headRow(IN_REPORT.comparison.heads)}<tbody>${rows}</tbody></table>
${overlays(comparison, units)}
<p class="note">${sayHowCompared(comparison.comparison, units).join(" ")}</p></section>`;
}

/** Days and cycles over one another, as far as both visits have them. */
function overlays({ days, cycles }: NonNullable<ReportInput["comparison"]>, units: ReportInput["units"]): Markup {
  const words = IN_REPORT.comparison;
  return markup`${days === null ? null : markup`<figure><h3>${words.days}</h3>${drawOverlay(days, "day", units, words.ofDays(days[0].count, days[1].count))}</figure>`}
${cycles === null ? null : markup`<figure><h3>${words.cycles}</h3>${drawOverlay(cycles, "cycle", units, words.ofCycles(cycles[0].count, cycles[1].count))}</figure>`}`;
}
