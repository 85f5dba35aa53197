import type { FilePart } from "../file-part";
import type { ImportChoices } from "../import-choices";

/** A part without headings, and a part of the same log that has them. */
export type LentHeadings = { readonly at: number; readonly lender: FilePart };

/**
 * Parts without headings that go on where a part with headings and as many columns has ended, as loggers write them that name their columns only in
 * the first of several files. Nothing is lent by a part whose own columns are asked.
 */
export function borrowHeadings(parts: readonly FilePart[]): readonly LentHeadings[] {
  return parts.flatMap((part, at) => {
    if (part.layout.dialect !== "no-headings") return [];
    const lenders = parts.filter((other) => other.layout.dialect !== "no-headings" && fits(part, other));
    return lenders.length === 0 ? [] : [{ at, lender: lenders[0] }];
  });
}

function fits(part: FilePart, other: FilePart): boolean {
  const [mine, theirs] = [part.layout.columns, other.layout.columns];
  const alike = mine.length === theirs.length && mine.every(({ role }, i) => (role === "time") === (theirs[i].role === "time"));
  const asked = other.questions.some(({ id }) => id.includes(":"));
  return alike && !asked && part.clock.kind === "absolute" && other.clock.kind === "absolute" && apart(part, other);
}

const startOf = ({ clock }: FilePart) => (clock.kind === "absolute" ? clock.epoch : 0);
const apart = (a: FilePart, b: FilePart) => startOf(a) > startOf(b) + b.duration || startOf(b) > startOf(a) + a.duration;

/** What a person would choose who knows the columns of the lender. */
export const choicesOf = ({ lender }: LentHeadings, choices: ImportChoices): ImportChoices => ({
  ...choices,
  columns: [
    ...choices.columns,
    ...lender.layout.columns.flatMap(({ index, role, unit }) => (role === "time" ? [] : [{ heading: `column ${index + 1}`, role, unit }])),
  ],
});

/** A part read again by those choices, its columns named as the lender names them, and a note that says so. */
export function withHeadings(part: FilePart, { lender }: LentHeadings): FilePart {
  const nameAt = new Map(lender.layout.columns.map(({ index, heading }) => [index, heading]));
  const renamed = <T extends { readonly heading: string; readonly index: number }>(column: T): T => ({
    ...column,
    heading: nameAt.get(column.index) ?? column.heading,
  });
  return {
    ...part,
    channels: part.channels.map(renamed),
    columns: part.columns.map(renamed),
    layout: { ...part.layout, columns: part.layout.columns.map(renamed) },
    notes: [...part.notes, { kind: "lent-headings", file: part.file.name, lender: lender.file.name }],
  };
}
