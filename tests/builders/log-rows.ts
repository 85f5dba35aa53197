import { importLog, NO_CHOICES } from "../../analysis/import/import-log";
import { writeInstant } from "../../shared/record/clock";
import { seconds } from "../../shared/units/quantity";
import { logFile } from "./log-file";

export const two = (n: number) => String(n).padStart(2, "0");
/** Unix time of 6 May 2024, a day that reads both ways. */
export const MAY_6 = Date.UTC(2024, 4, 6) / 1000;

/** n rows from a Unix time (10:00 on 6 May 2024), written by a function of the instant and its number. */
export const rows = (n: number, step: number, write: (at: Date, i: number) => string, from = MAY_6 + 36_000) =>
  Array.from({ length: n }, (_, i) => write(new Date(Math.round((from + i * step) * 1000)), i));

/** A pressure in bar that moves. */
export const bar = (i: number) => (3 + (i % 7) / 10).toFixed(2);
export const iso = (d: Date) => d.toISOString().slice(0, 19);
export const hms = (d: Date) => d.toISOString().slice(11, 19);
export const table = (head: string, lines: readonly string[]) => `${head}\n${lines.join("\n")}\n`;

/** Reads a file and says: first and last instant, rows, ids asked. */
export async function told(text: string, name = "log.csv") {
  const { record } = await importLog([logFile(text, name)], NO_CHOICES);
  const at = (t: number) => String(writeInstant(record.clock, seconds(t))).replace(".000Z", "Z");
  return { from: at(0), to: at(record.duration), rows: record.rows, asked: record.questions.map((q) => q.id), record };
}
