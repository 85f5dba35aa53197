import { csvCell } from "../../../shared/record/csv-cell";
import { ROUND_WORDS } from "../../../shared/wording/round";
import { causeName, daysSince, type RoundRow, sayAcceptance, sayChange } from "./round-rows";

/** The round as CSV, one row a site in the order shown. @param now Unix time, ms */
export function roundCsv(rows: readonly RoundRow[], now: number): string {
  const lines = rows.map((row) => {
    const { digest } = row.latest;
    return [
      row.site,
      digest.to === null ? "" : new Date(digest.to).toISOString(),
      String(daysSince(row, now) ?? ""),
      String(row.visits),
      String(row.trend.broken.at(-1) ?? ""),
      sayAcceptance(row),
      sayChange(row),
      String(digest.starts ?? ""),
      String(digest.shortCycles ?? ""),
      causeName(row) ?? "",
      digest.cause === null ? "" : digest.cause.confidence.toFixed(2),
      row.why,
    ];
  });
  return [ROUND_WORDS.columns, ...lines].map((cells) => `${cells.map(csvCell).join(",")}\r\n`).join("");
}
