import * as v from "valibot";
import type { StoredCorrection } from "./database";

const CORRECTION = v.object({
  signature: v.pipe(v.string(), v.minLength(1), v.maxLength(100_000)),
  headings: v.array(v.string()),
  answers: v.record(v.string(), v.string()),
  columns: v.array(v.object({ heading: v.string(), role: v.string(), unit: v.nullable(v.string()) })),
  saved: v.number(),
});

/** The corrections in a file that `Save the corrections as a file` wrote; null where it is none. Roles that are not known are kept and left out when used. */
export function readCorrections(text: string): readonly StoredCorrection[] | null {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return null;
  }
  const read = v.safeParse(v.array(CORRECTION), data);
  return read.success ? read.output : null;
}

export type CorrectionPoint =
  | { readonly kind: "column"; readonly column: StoredCorrection["columns"][number] }
  | { readonly kind: "answer"; readonly id: string; readonly answer: string };

/** What one of the things a correction says is about: a column or a question. */
export function subjectOf(one: StoredCorrection, at: number): string {
  const point = pointOf(one, at);
  return point === null ? "" : point.kind === "column" ? `column ${point.column.heading}` : `answer ${point.id}`;
}

/** One of the things a correction says, counted as they are said; null where there are fewer. */
export function pointOf({ columns, answers }: StoredCorrection, at: number): CorrectionPoint | null {
  if (at < columns.length) return { kind: "column", column: columns[at] };
  const entry = Object.entries(answers)[at - columns.length];
  return entry === undefined ? null : { kind: "answer", id: entry[0], answer: entry[1] };
}

/** A correction with one of the things it says put to another value, in its place. */
export function withPoint(one: StoredCorrection, at: number, point: CorrectionPoint): StoredCorrection {
  if (point.kind === "column") return { ...one, columns: one.columns.map((column, i) => (i === at ? point.column : column)) };
  const answers = Object.entries(one.answers).map(([id, answer]) => [id, id === point.id ? point.answer : answer]);
  return { ...one, answers: Object.fromEntries(answers) };
}

/** A correction without one of the things it says, counted as they are said: columns first, then answers. Null where nothing is left of it. */
export function withoutPoint(one: StoredCorrection, at: number): StoredCorrection | null {
  const columns = one.columns.filter((_, i) => i !== at);
  const answers = Object.entries(one.answers).filter((_, i) => i + one.columns.length !== at);
  return columns.length + answers.length === 0 ? null : { ...one, columns, answers: Object.fromEntries(answers) };
}
