import type { ReadingNote } from "../../shared/wording/reading-note";
import { readsStart, readsZone } from "./clock/unclear-lines";
import { findZone } from "./clock/zone-text";
import { readKFactor } from "./columns/column-choices";
import type { ColumnText, FileContext } from "./columns/column-reading";
import { readRange } from "./columns/raw-signal";
import { markIn } from "./columns/read-sentinels";
import { scaleIn } from "./columns/told-scale";
import { unitInHeading } from "./columns/unit-from-text";
import { numberSaid, type StatementKind, speaksOf } from "./statement-words";

type Statement = {
  /** Whether the reader of the kind understood the line. */
  readonly isRead: (line: string) => boolean;
  /** The number that changes nothing. */
  readonly idle: number | null;
};

const STATEMENTS: Readonly<Record<StatementKind, Statement>> = {
  scale: { isRead: (line) => scaleIn(line) !== 1 || readRange(line) !== null || namesScale(line), idle: 1 },
  offset: { isRead: (line) => findZone(line) !== null, idle: 0 },
  zone: { isRead: readsZone, idle: null },
  missing: { isRead: (line) => markIn(line) !== null, idle: null },
  pulse: { isRead: (line) => readKFactor(line) !== null, idle: null },
  start: { isRead: readsStart, idle: null },
};
const KINDS = Object.keys(STATEMENTS) as StatementKind[];

/** "Pressure (0.1 bar)" names its scale as a part of the unit. */
const namesScale = (line: string): boolean => /^\d/.test(unitInHeading(line)?.unit.symbol ?? "");

/**
 * Lines beside the table, and parts of headings, that speak with a number of something that would change values or instants, and that no reader
 * understood: none is passed over in silence. What it would change is asked by the readers themselves.
 */
export function unreadLines(columns: readonly ColumnText[], { preamble, below = [] }: FileContext): readonly ReadingNote[] {
  const headings = columns.flatMap(({ heading }) => (partsOf(heading).some((part) => unreadKinds(part).length > 0) ? [heading] : []));
  const lines = [...preamble, ...below].filter((line) => unreadKinds(line).length > 0);
  return [
    ...lines.map((line) => ({ kind: "unread-line", line: line.trim(), about: unreadKinds(line) }) as const),
    ...headings.map(
      (heading) => ({ kind: "unread-heading", heading, about: [...new Set(partsOf(heading).flatMap(unreadKinds))] }) as const,
    ),
  ];
}

/** What stands in brackets, or behind a mark, says more of a column than its name. */
const partsOf = (heading: string): readonly string[] => heading.match(/[[({][^\])}]*[\])}]|[,;:|][^,;:|]*/g) ?? [];

const unreadKinds = (line: string): readonly StatementKind[] =>
  KINDS.filter((kind) => {
    const { isRead, idle } = STATEMENTS[kind];
    return speaksOf(kind, line) && !isRead(line) && (idle === null || numberSaid(kind, line) !== idle);
  });
