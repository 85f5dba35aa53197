import { type Markup, markup } from "../../report/markup";
import { reportStyle } from "../../report/report-style";
import { daysSince, type RoundRow, sayAttention, sayChange, sayDays } from "./round-rows";

/** What fits on one page beneath the figures. */
const MOST_SITES = 16;
const MOST_WORDS = 150;

/**
 * The round on one page, as an HTML file that needs nothing else: how many sites, how many keep their limits, and the first that need
 * attention, with why. @param rows in the order shown     @param now Unix time, ms
 */
export function roundSummary(rows: readonly RoundRow[], now: number, paper: "A4" | "Letter"): string {
  const urgent = rows.filter(({ weight }) => weight > 0).toSorted((a, b) => b.weight - a.weight);
  const count = (is: (row: RoundRow) => boolean) => rows.filter(is).length;
  const facts: readonly (readonly [string, number])[] = [
    ["Sites", rows.length],
    ["Visits", rows.reduce((sum, { visits }) => sum + visits, 0)],
    ["Sites that keep their limits", count(({ weight }) => weight === 0)],
    ["Sites that break a limit", count(({ weight }) => weight >= 1)],
    ["Tanks above their marked pressure", count(({ latest }) => latest.digest.broken.some(({ kind }) => kind === "over-marked-pressure"))],
    ["Worse than at the visit before", count(({ change }) => (change ?? 0) > 0)],
    ["Better than at the visit before", count(({ change }) => (change ?? 0) < 0)],
    ["Records that could not be read", count(({ latest }) => latest.digest.error !== null)],
  ];
  const day = new Date(now).toISOString().slice(0, 10);
  return markup`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"><title>Round, ${day}</title><style>${{ html: reportStyle(paper) }}</style></head>
<body><header><h1>Round of all sites</h1><p>${day}</p></header><main>
<table><tbody>${facts.map(([name, n]) => markup`<tr><th scope="row">${name}</th><td>${n}</td></tr>`)}</tbody></table>
<h2>What needs attention first</h2>
${urgent.length === 0 ? markup`<p>No site breaks a limit.</p>` : table(urgent.slice(0, MOST_SITES), now)}
${urgent.length > MOST_SITES ? markup`<p class="note">And ${urgent.length - MOST_SITES} more; all stand in the round and in its CSV.</p>` : null}
</main></body></html>
`.html;
}

const table = (rows: readonly RoundRow[], now: number): Markup =>
  markup`<table><thead><tr><th scope="col">Site</th><th scope="col">Why</th><th scope="col">Against the visit before</th><th scope="col">Last record</th></tr></thead><tbody>${rows.map((row) => markup`<tr><th scope="row">${row.site}</th><td>${cut(sayAttention(row))}</td><td>${sayChange(row).split(";")[0]}</td><td>${sayDays(daysSince(row, now))}</td></tr>`)}</tbody></table>`;

const cut = (text: string): string => (text.length <= MOST_WORDS ? text : `${text.slice(0, MOST_WORDS).replace(/\s+\S*$/, "")} ...`);
