import type { ReadingNote } from "../../shared/record/log-record";
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
  readonly what: string;
  /** Whether the reader of the kind understood the line. */
  readonly isRead: (line: string) => boolean;
  /** The number that changes nothing. */
  readonly idle: number | null;
};

const STATEMENTS: Readonly<Record<StatementKind, Statement>> = {
  scale: { what: "a scale", isRead: (line) => scaleIn(line) !== 1 || readRange(line) !== null || namesScale(line), idle: 1 },
  offset: { what: "an offset", isRead: (line) => findZone(line) !== null, idle: 0 },
  zone: { what: "the zone of the clock", isRead: readsZone, idle: null },
  missing: { what: "missing values", isRead: (line) => markIn(line) !== null, idle: null },
  pulse: { what: "pulses", isRead: (line) => readKFactor(line) !== null, idle: null },
  start: { what: "the start", isRead: readsStart, idle: null },
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
    ...lines.map((line) => noteOf(`The line "${line.trim()}"`, unreadKinds(line))),
    ...headings.map((heading) => noteOf(`The heading "${heading}"`, partsOf(heading).flatMap(unreadKinds))),
  ];
}

/** What stands in brackets, or behind a mark, says more of a column than its name. */
const partsOf = (heading: string): readonly string[] => heading.match(/[[({][^\])}]*[\])}]|[,;:|][^,;:|]*/g) ?? [];

const unreadKinds = (line: string): readonly StatementKind[] =>
  KINDS.filter((kind) => {
    const { isRead, idle } = STATEMENTS[kind];
    return speaksOf(kind, line) && !isRead(line) && (idle === null || numberSaid(kind, line) !== idle);
  });

const noteOf = (subject: string, kinds: readonly StatementKind[]): ReadingNote => ({
  kind: "unread-line",
  text: `${subject} seems to speak of ${[...new Set(kinds)].map((kind) => STATEMENTS[kind].what).join(" and ")}; its words are not understood, and nothing of it was applied unasked.`,
});
