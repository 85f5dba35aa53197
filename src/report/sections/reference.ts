import type { FactKey } from "../../../shared/site/fact-key";
import { FACT_WORDS } from "../../../shared/wording/site-fact";
import { type Markup, markup } from "../markup";
import type { ReportInput } from "../report-input";

const ORIGINS: ReadonlyMap<unknown, string> = new Map([
  ["given", "given"],
  ["company", "company limit"],
  ["assumed", "assumed"],
  ["log", "read from the log"],
]);

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
  return markup`<section class="together"><h2>Site facts</h2><table><thead><tr><th scope="col">Fact</th><th scope="col">As written</th><th scope="col">Origin</th></tr></thead><tbody>${rows}</tbody></table></section>`;
}

const row = (name: string, fact: WrittenFact): Markup =>
  markup`<tr><th scope="row">${labelOf(name)}</th><td>${typeof fact.text === "string" ? fact.text : String(fact.value)}</td><td>${ORIGINS.get(fact.from) ?? "not known"}</td></tr>`;

const isKey = (name: string): name is FactKey => name in FACT_WORDS;
/** As the page names it; a fact that is not entered (the air's pressure) by its name in the document. */
const labelOf = (name: string): string => (isKey(name) ? FACT_WORDS[name].label : (OTHER_FACTS.get(name) ?? name));
const OTHER_FACTS: ReadonlyMap<string, string> = new Map([["atmosphere", "Air pressure at the site"]]);

/** What anyone needs to repeat the analysis from the original log. */
export function recordSection({ document }: ReportInput): Markup {
  const { record } = document;
  return markup`<section class="together"><h2>The record's fingerprint</h2>
<table><thead><tr><th scope="col">File</th><th scope="col">Bytes</th><th scope="col">SHA-256</th></tr></thead><tbody>${record.files.map((f) => markup`<tr><td>${f.name}</td><td>${f.bytes}</td><td class="hash">${f.sha256 ?? "not worked out"}</td></tr>`)}</tbody></table>
<p>${record.rows.accepted} rows accepted, ${record.rows.rejected} rejected, ${record.rows.duplicate} duplicate, ${record.rows.reordered} put in order.</p>
${record.questions.length === 0 ? null : markup`<h3>Assumed while reading</h3><ul>${record.questions.map((q) => markup`<li>${q.text} Assumed: ${q.assumed}.</li>`)}</ul>`}
${record.notes.length === 0 ? null : markup`<h3>Noticed while reading</h3><ul>${record.notes.map((n) => markup`<li>${n.text}</li>`)}</ul>`}
<p class="note">Made by Evenhead ${document.program}. The same files, site facts and version give the same findings.</p></section>`;
}
