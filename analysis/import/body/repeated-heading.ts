import type { TablePlan } from "../table-plan";

/** Whether a row repeats the headings or the units above the data, as a logger writes them again after a restart. */
export function isRepeatedHeading(cells: readonly string[], plan: TablePlan): boolean {
  return plan.above.some((row) => isMarked(row.line, plan) && sameCells(row.cells, cells));
}

const isMarked = (line: number, plan: TablePlan) => plan.headingLines.includes(line) || plan.unitLine === line;

function sameCells(a: readonly string[], b: readonly string[]): boolean {
  const length = Math.max(a.length, b.length);
  for (let i = 0; i < length; i++) if ((a[i] ?? "") !== (b[i] ?? "")) return false;
  return true;
}
