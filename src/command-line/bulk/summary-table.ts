import type { FindingsDocument } from "../../../shared/schemas/findings-document";
import { notRead, sayCounts } from "../../../shared/wording/findings-row";
import { onOneLine } from "../for-terminal";
import { FINDINGS_COLUMNS } from "./findings-row";

/** One log in the summary of a bulk run; `overLimit` counts the findings that break a limit. */
export type SummaryRow = {
  readonly log: string;
  readonly error: string | null;
  readonly overLimit: number;
  readonly cells: readonly string[];
};

const SHOWN = [
  "log",
  "starts",
  "peak_starts_per_hour",
  "short_cycles",
  "oscillation_episodes",
  "drift_over",
  "first_cause",
  "first_confidence",
];
const COLUMNS = FINDINGS_COLUMNS.filter(({ name }) => SHOWN.includes(name));

export const summaryRow = (log: string, document: FindingsDocument): SummaryRow => ({
  log,
  error: document.error?.kind ?? null,
  overLimit: document.error === null ? document.findings.filter((f) => f.overLimit === true).length : 0,
  cells: document.error === null ? COLUMNS.map(({ of }) => cell(of(document, log))) : [onOneLine(log), notRead(document.error.kind)],
});

/** The summary of a bulk run: what needs attention first. */
export function summaryTable(rows: readonly SummaryRow[]): string {
  const sorted = rows.toSorted((a, b) => b.overLimit - a.overLimit || (a.log < b.log ? -1 : 1));
  const lines = [COLUMNS.map(({ name }) => name.replaceAll("_", " ")), ...sorted.map(({ cells }) => cells)];
  const widths = COLUMNS.map((_, i) =>
    lines.reduce((most, line) => Math.max(most, line.length === COLUMNS.length ? line[i].length : 0), 0),
  );
  const written = lines.map((line) => line.map((text, i) => (i < line.length - 1 ? text.padEnd(widths[i]) : text)).join("  "));
  const count = (is: (row: SummaryRow) => boolean) => rows.filter(is).length;
  return `${written.join("\n")}\n${sayCounts(
    rows.length,
    count((row) => row.overLimit > 0),
    count((row) => row.error !== null),
  )}\n`;
}

const cell = (value: string | number | boolean | null): string =>
  value === null ? "-" : typeof value === "number" ? String(Math.round(value * 100) / 100) : onOneLine(String(value));
