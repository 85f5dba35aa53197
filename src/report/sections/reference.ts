import type { FactKey } from "../../../shared/site/fact-key";
import { formatOwn } from "../../../shared/units/format-quantity";
import { IN_REPORT } from "../../../shared/wording/report";
import { FACT_WORDS } from "../../../shared/wording/site-fact";
import { headRow, type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

const ORIGINS: ReadonlyMap<unknown, string> = new Map(Object.entries(IN_REPORT.siteFacts.origins));

type WrittenFact = { readonly value: unknown; readonly unit: unknown; readonly from: unknown; readonly text?: unknown };
const isFact = (x: unknown): x is WrittenFact => typeof x === "object" && x !== null && "value" in x && "from" in x;

/** Every site fact as it was used and where it came from. */
export function siteFactsSection({ document }: ReportInput): Markup | null {
  const rows = Object.entries(document.site).flatMap(([name, fact]) =>
    isFact(fact)
      ? [row(name, fact)]
      : typeof fact === "object" && fact !== null
        ? Object.entries(fact).flatMap(([inner, value]) => (isFact(value) ? [row(`${name}.${inner}`, value)] : []))
        : [],
  );
  if (rows.length === 0) return null;
  return markup`<section class="together"><h2>${IN_REPORT.siteFacts.title}</h2><table>${headRow(IN_REPORT.siteFacts.heads)}<tbody>${rows}</tbody></table></section>`;
}

const row = (name: string, fact: WrittenFact): Markup =>
  markup`<tr><th scope="row">${labelOf(name)}</th><td>${typeof fact.text === "string" ? fact.text : String(fact.value)}</td><td>${ORIGINS.get(fact.from) ?? IN_REPORT.notKnown}</td></tr>`;

const isKey = (name: string): name is FactKey => name in FACT_WORDS;
/** As the page names it; a fact that is not entered (the air's pressure) by its name in the document. */
const labelOf = (name: string): string =>
  isKey(name) ? FACT_WORDS[name].label : name === "atmosphere" ? IN_REPORT.siteFacts.atmosphere : name;

/** What anyone needs to repeat the analysis from the original log. */
export function recordSection({ document, units: { locale } }: ReportInput): Markup {
  const { record } = document;
  return markup`<section class="together"><h2>${IN_REPORT.record.title}</h2>
<table>${headRow(IN_REPORT.record.heads)}<tbody>${record.files.map((f) => markup`<tr><td>${f.name}</td><td>${formatOwn(f.bytes, locale)}</td><td class="hash">${f.sha256 ?? IN_REPORT.record.noHash}</td></tr>`)}</tbody></table>
<p>${IN_REPORT.record.rows(record.rows.accepted, record.rows.rejected, record.rows.duplicate, record.rows.reordered, locale)}</p>
${record.questions.length === 0 ? null : markup`<h3>${IN_REPORT.record.assumed}</h3><ul>${record.questions.map((q) => markup`<li>${IN_REPORT.record.assumedIs(q.text, q.assumed)}</li>`)}</ul>`}
${record.notes.length === 0 ? null : markup`<h3>${IN_REPORT.record.noticed}</h3><ul>${record.notes.map((n) => markup`<li>${n.text}</li>`)}</ul>`}
<p class="note">${IN_REPORT.record.madeBy(document.program)}</p></section>`;
}
