import { formatMeasured, formatQuantity } from "../../../shared/units/format-quantity";
import { MEASURES, VERDICT_WORDS, WHY_NOT_COMPARED } from "../../../shared/wording/comparison";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

export function beforeAndAfterSection({ comparison, units }: ReportInput): Markup | null {
  if (comparison === null) return null;
  const { measures, overall, matchedShare, hiddenBelowPeriodS } = comparison.comparison;
  const rows = measures.map((m) => {
    const { name, shown } = MEASURES[m.id];
    const write = (q: typeof m.before) => (q === null ? "not known" : formatMeasured(q, shown, units));
    const verdict = m.because === null ? VERDICT_WORDS[m.verdict] : `${VERDICT_WORDS[m.verdict]}: ${WHY_NOT_COMPARED[m.because]}`;
    return markup`<tr><th scope="row">${name}</th><td>${write(m.before)}</td><td>${write(m.after)}</td><td>${write(m.difference)}</td><td>${m.limit === null ? "none" : formatQuantity(m.limit, shown, units)}</td><td>${verdict}</td></tr>`;
  });
  return markup`<section><h2>Before and after</h2><p><strong>${VERDICT_WORDS[overall]}.</strong> Before: ${comparison.beforeName}. After: ${comparison.afterName}.</p>
<table><thead><tr><th scope="col">Measure</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Difference</th><th scope="col">Limit</th><th scope="col">Verdict</th></tr></thead><tbody>${rows}</tbody></table>
<p class="note">In brackets: 95 % intervals by block bootstrap.${matchedShare === null ? "" : ` Weighed to a like demand; ${formatQuantity(matchedShare, "fraction", units, 2)} of the hours had one to set against.`}${hiddenBelowPeriodS === null ? "" : ` The slower logger could not show periods under ${formatQuantity(hiddenBelowPeriodS, "time", units, 2)}; these are left out of both.`}</p></section>`;
}
