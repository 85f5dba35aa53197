import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import { VERDICT_WORDS } from "../../../shared/wording/comparison";
import { CAUSE_FOR_CUSTOMER, CUSTOMER_CAUTIONS, FOR_CUSTOMER, OVER_PRESSURE_CAUTION } from "../../../shared/wording/customer";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";
import { timeLabels } from "../time-labels";

/** Below this the cause is not named to the customer: it would be a guess. */
const NAMED_FROM = 0.5;
const isCause = (id: string): id is CauseId => CAUSE_IDS.some((known) => known === id);

/** One page in plain words: what was found, why, what comes next, what to look out for. */
export function customerSection({ document, comparison, units }: ReportInput): Markup {
  const said = document.findings.flatMap((f) => (f.overLimit === true ? (FOR_CUSTOMER[f.kind] ?? []) : []));
  const over = document.findings.some((f) => f.kind === "over-marked-pressure");
  return markup`<section class="page"><h2>In plain words</h2>
<p>Your water system was recorded: ${timeLabels(document, units.locale).whole}.</p>
<h3>What was found</h3>
${said.length === 0 ? markup`<p>Nothing in the record breaks the limits that were set.</p>` : markup`<ul>${said.map((text) => markup`<li>${text}</li>`)}</ul>`}
<h3>Why</h3><p>${whySentence(document.causes[0])}</p>
<h3>What happens next</h3>
${document.advice.length === 0 ? markup`<p>No work is proposed.</p>` : markup`<ol>${document.advice.slice(0, 5).map((step) => markup`<li>${step.do}</li>`)}</ol>`}
${comparison === null ? null : markup`<h3>Did it help?</h3><p>${VERDICT_WORDS[comparison.comparison.overall]}. The figures stand under "Before and after".</p>`}
<h3>Please note</h3><ul>${[...(over ? [OVER_PRESSURE_CAUTION] : []), ...CUSTOMER_CAUTIONS].map((text) => markup`<li class="caution">${text}</li>`)}</ul></section>`;
}

function whySentence(cause: ReportInput["document"]["causes"][number] | undefined): string {
  if (cause === undefined || cause.confidence < NAMED_FROM || !isCause(cause.id))
    return "The record alone does not settle the reason; the next visit will narrow it down.";
  return `Most likely ${CAUSE_FOR_CUSTOMER[cause.id]}.`;
}
