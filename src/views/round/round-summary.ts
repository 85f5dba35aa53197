import { sayDay } from "../../../shared/wording/instant";
import { ROUND_WORDS } from "../../../shared/wording/round";
import { type Markup, markup } from "../../report/markup";
import { reportStyle } from "../../report/report-style";
import { daysSince, isOverMarked, type RoundRow, sayChange } from "./round-rows";

const { summary } = ROUND_WORDS;

/** What fits on one page beneath the figures. */
const MOST_SITES = 10;
const MOST_WORDS = 150;

/**
 * The round on one page, as an HTML file that needs nothing else: how many sites, how many keep their limits, and the first that need
 * attention, with why. @param rows in the order shown     @param now Unix time, ms
 */
export function roundSummary(rows: readonly RoundRow[], now: number, paper: "A4" | "Letter", locale: string | null): string {
  const urgent = rows.filter(({ weight }) => weight > 0).toSorted((a, b) => b.weight - a.weight);
  const count = (is: (row: RoundRow) => boolean) => rows.filter(is).length;
  const facts: readonly (readonly [string, number])[] = [
    [summary.sites, rows.length],
    [summary.visits, rows.reduce((sum, { visits }) => sum + visits, 0)],
    [summary.keep, count(({ weight }) => weight === 0)],
    [summary.break, count(({ weight }) => weight >= 1)],
    [summary.aboveMark, count(isOverMarked)],
    [summary.worse, count(({ change }) => (change ?? 0) > 0)],
    [summary.better, count(({ change }) => (change ?? 0) < 0)],
    [summary.unread, count(({ latest }) => latest.digest.error !== null)],
  ];
  const day = sayDay(now, locale);
  return markup`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"><title>${summary.name(day)}</title><style>${{ html: reportStyle(paper) }}</style></head>
<body><header><h1>${summary.title}</h1><p>${day}</p></header><main>
${inTwo(facts)}
<h2>${summary.attention}</h2>
${urgent.length === 0 ? markup`<p>${summary.none}</p>` : table(urgent.slice(0, MOST_SITES), now)}
${urgent.length > MOST_SITES ? markup`<p class="note">${summary.more(urgent.length - MOST_SITES)}</p>` : null}
</main></body></html>
`.html;
}

/** Figures in two columns: the page is short. */
function inTwo(facts: readonly (readonly [string, number])[]): Markup {
  const half = Math.ceil(facts.length / 2);
  const cells = (fact: readonly [string, number] | undefined) =>
    fact === undefined ? null : markup`<th scope="row">${fact[0]}</th><td>${fact[1]}</td>`;
  return markup`<table><tbody>${facts.slice(0, half).map((fact, i) => markup`<tr>${cells(fact)}${cells(facts[half + i])}</tr>`)}</tbody></table>`;
}

const table = (rows: readonly RoundRow[], now: number): Markup =>
  markup`<table><thead><tr>${summary.heads.map((head) => markup`<th scope="col">${head}</th>`)}</tr></thead><tbody>${rows.map((row) => markup`<tr><th scope="row">${row.site}</th><td>${cut(row.why)}</td><td>${sayChange(row).split(";")[0]}</td><td>${ROUND_WORDS.daysAgo(daysSince(row, now))}</td></tr>`)}</tbody></table>`;

const cut = (text: string): string => (text.length <= MOST_WORDS ? text : `${text.slice(0, MOST_WORDS).replace(/\s+\S*$/, "")} ...`);
