import { csvCell } from "../../../shared/record/csv-cell";
import { daysSince, type RoundRow, sayAttention, sayChange } from "./round-rows";

const HEADINGS = [
  "Site",
  "Last record ends",
  "Days since",
  "Visits",
  "Limits broken",
  "Against the visit before",
  "Most starts in an hour",
  "Short cycles",
  "Likeliest cause",
  "Confidence",
  "Why it needs attention",
];

/** The round as CSV, one row a site in the order shown. @param now Unix time, ms */
export function roundCsv(rows: readonly RoundRow[], now: number): string {
  const lines = rows.map((row) => [
    row.site,
    row.latest.to === null ? "" : new Date(row.latest.to).toISOString(),
    String(daysSince(row, now) ?? ""),
    String(row.visits),
    String(row.broken.length),
    sayChange(row),
    String(row.starts ?? ""),
    String(row.shortCycles ?? ""),
    row.cause?.name ?? "",
    row.cause === null ? "" : row.cause.confidence.toFixed(2),
    sayAttention(row),
  ]);
  return [HEADINGS, ...lines].map((cells) => `${cells.map(csvCell).join(",")}\r\n`).join("");
}
