import type { FileLayout } from "../../shared/record/file-layout";

type Column = FileLayout["columns"][number];

/** A column as the reader would describe it, with what a test does not care about filled in. */
export const layoutColumn = (column: Partial<Column> = {}): Column => ({
  heading: "P1 [psi]",
  index: 1,
  role: "pressure",
  unit: "psi",
  certainty: 0.98,
  reason: [{ kind: "heading", role: "pressure", unit: { text: "psi", from: "heading" } }],
  range: { low: 38, high: 61 },
  picture: [50, 48, 40, 52, 60, null, 51, 50],
  unitOptions: ["psi", "bar"],
  ...column,
});

/** How a small plain file was understood. */
export const fileLayout = (layout: Partial<FileLayout> = {}): FileLayout => ({
  file: "hill-farm.csv",
  encoding: "utf-8",
  delimiter: ",",
  decimal: ".",
  thousands: null,
  dialect: "heading-row",
  lines: [
    { line: 1, text: "Logged at Hill Farm", kind: "preamble", cells: null },
    { line: 2, text: "Time,P1 [psi]", kind: "heading", cells: ["Time", "P1 [psi]"] },
    { line: 3, text: "2024-05-03 08:00:00,50.0", kind: "data", cells: ["2024-05-03 08:00:00", "50.0"] },
    { line: 4, text: "2024-05-03 08:00:01,ERR", kind: "rejected", cells: ["2024-05-03 08:00:01", "ERR"] },
  ],
  columns: [layoutColumn()],
  clock: [{ kind: "stamps", columns: [{ heading: "Time", index: 0, form: { letters: "yyyy-mm-dd hh:mm:ss" } }], zone: null }],
  signature: "Time|P1 [psi]",
  ...layout,
});
