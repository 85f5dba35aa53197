import { formatMeasured, formatQuantity } from "../../../shared/units/format-quantity";
import { MEASURES, sayHowCompared, VERDICT_WORDS, WHY_NOT_COMPARED } from "../../../shared/wording/comparison";
import { type Markup, markup } from "../markup";
import { drawOverlay } from "../overlay-picture";
import type { ReportInput } from "../report-input";

export function beforeAndAfterSection({ comparison, units }: ReportInput): Markup | null {
  if (comparison === null) return null;
  const { measures, overall } = comparison.comparison;
  const rows = measures.map((m) => {
    const { name, shown } = MEASURES[m.id];
    const write = (q: typeof m.before) => (q === null ? "not known" : formatMeasured(q, shown, units));
    const verdict = m.because === null ? VERDICT_WORDS[m.verdict] : `${VERDICT_WORDS[m.verdict]}: ${WHY_NOT_COMPARED[m.because]}`;
    return markup`<tr><th scope="row">${name}</th><td>${write(m.before)}</td><td>${write(m.after)}</td><td>${write(m.difference)}</td><td>${m.limit === null ? "none" : formatQuantity(m.limit, shown, units)}</td><td>${verdict}</td></tr>`;
  });
  return markup`<section><h2>Before and after</h2><p><strong>${VERDICT_WORDS[overall]}.</strong> Before: ${comparison.beforeName}. After: ${comparison.afterName}.</p>
<table><thead><tr><th scope="col">Measure</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Difference</th><th scope="col">Limit</th><th scope="col">Verdict</th></tr></thead><tbody>${rows}</tbody></table>
${overlays(comparison, units)}
<p class="note">${sayHowCompared(comparison.comparison, units).join(" ")}</p></section>`;
}

/** Days and cycles over one another, as far as both visits have them. */
function overlays({ days, cycles }: NonNullable<ReportInput["comparison"]>, units: ReportInput["units"]): Markup {
  const counts = (pair: readonly { readonly count: number }[], what: string) => `${pair[0].count} ${what} before, ${pair[1].count} after`;
  return markup`${days === null ? null : markup`<figure><h3>All days laid over one another</h3>${drawOverlay(days, "day", units, `Pressure over the time of day, ${counts(days, "days")}`)}</figure>`}
${cycles === null ? null : markup`<figure><h3>All cycles laid over one another</h3>${drawOverlay(cycles, "cycle", units, `Pressure from the pump's start on, ${counts(cycles, "cycles")}`)}</figure>`}`;
}
