import type { DateOrder } from "../clock/stamp";
import type { FilePart } from "../file-part";

/** A part whose dates can be read in several ways, and a part of the same columns whose dates allow one order only. */
export type BorrowedOrder = { readonly at: number; readonly order: DateOrder; readonly from: string };

/**
 * Parts that ask for the order of day and month though another file of the visit settles it. Only a file with the very same columns speaks for another:
 * two loggers may well write dates in two ways. Nothing is lent where such files disagree.
 */
export function borrowDateOrders(parts: readonly FilePart[]): readonly BorrowedOrder[] {
  return parts.flatMap((part, at) => {
    if (!part.questions.some(({ id }) => id === "date-order")) return [];
    const lenders = parts.filter((other) => other.dateOrder !== null && hasSameColumns(part, other));
    const [first] = lenders;
    const agreed = first !== undefined && lenders.every(({ dateOrder }) => dateOrder === first.dateOrder);
    return agreed && first.dateOrder !== null ? [{ at, order: first.dateOrder, from: first.file.name }] : [];
  });
}

/** A part read again in the order it was lent, and a note that says so. */
export const withOrderNote = (part: FilePart, { order, from }: BorrowedOrder): FilePart => ({
  ...part,
  notes: [...part.notes, { kind: "date-order", by: { kind: "other-file", order, file: part.file.name, from } }],
});

const hasSameColumns = (a: FilePart, b: FilePart): boolean =>
  a.columns.length === b.columns.length && a.columns.every(({ heading }, i) => heading === b.columns[i].heading);
