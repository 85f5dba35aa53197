import type { LookChart } from "./look-chart";

/** A cell that a spreadsheet would take for a formula gets an apostrophe; quotes, separators and line ends are wrapped. */
export function safeCell(text: string): string {
  const guarded = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}

/** The numbers of a picture as CSV, in the units shown: one row a point, an empty cell where there is no value. */
export function lookCsv({ spec, data, xTitle, yTitle }: LookChart): string {
  const head = [xTitle === "" ? "Seconds since the record began" : xTitle, ...spec.lines.map(({ label }) => `${label} (${yTitle})`)].map(
    safeCell,
  );
  const rows = Array.from({ length: data.x.length }, (_, i) =>
    [data.x[i], ...data.ys.map((line) => line[i])].map((v) => (v === null || v === undefined || Number.isNaN(v) ? "" : String(v))),
  );
  return `${[head, ...rows].map((cells) => cells.join(",")).join("\r\n")}\r\n`;
}
