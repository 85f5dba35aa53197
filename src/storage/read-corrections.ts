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

/** A correction without one of the things it says, counted as they are said: columns first, then answers. Null where nothing is left of it. */
export function withoutPoint(one: StoredCorrection, at: number): StoredCorrection | null {
  const columns = one.columns.filter((_, i) => i !== at);
  const answers = Object.entries(one.answers).filter((_, i) => i + one.columns.length !== at);
  return columns.length + answers.length === 0 ? null : { ...one, columns, answers: Object.fromEntries(answers) };
}
