import { csvCell } from "../../../shared/record/csv-cell";
import type { LookChart } from "./look-chart";

/** The numbers of a picture as CSV, in the units shown: one row a point, an empty cell where there is no value. */
export function lookCsv({ spec, data, xTitle, yTitle }: LookChart): string {
  const head = [xTitle, ...spec.lines.map(({ label }) => `${label} (${yTitle})`)].map(csvCell);
  const rows = Array.from({ length: data.x.length }, (_, i) =>
    [data.x[i], ...data.ys.map((line) => line[i])].map((v) => (v === null || v === undefined || Number.isNaN(v) ? "" : String(v))),
  );
  return `${[head, ...rows].map((cells) => cells.join(",")).join("\r\n")}\r\n`;
}
