import type { LineKind } from "../../../shared/record/file-layout";
import type { ReadingNote, RejectedRow } from "../../../shared/record/log-record";
import { cellKind } from "../cell-kind";
import type { DatedSection } from "../clock/dated-sections";
import { isCommentRow } from "../head-table";
import { isBeyondLimit } from "../number-format";
import type { TablePlan } from "../table-plan";

const REJECTS_KEPT = 100;
const KINDS_KEPT = 1000;
const LAST_LINES = 40;
const PENDING_KEPT = 200;

type Pending = { readonly line: number; readonly text: string; readonly why: string; readonly likeData: boolean };

/** What became of the lines that are not samples: rejects by line, comments, repeated headings, a footer. */
export class RowLog {
  rejected = 0;
  readonly rejects: RejectedRow[] = [];
  /** Rows (counted among those accepted) before which the headings were written again. */
  readonly restarts: number[] = [];
  readonly kinds = new Map<number, LineKind>();
  /** Lines among the rows that name the date of the times of day below them. */
  readonly sections: DatedSection[] = [];
  /** Kinds of the last lines. */
  readonly latest = new Map<number, LineKind>();
  private pending: Pending[] = [];
  private pendingCount = 0;
  /** More lines without data than a footer can have. */
  private flooded = false;
  private readonly bad = new Map<string, { count: number; readonly line: number; readonly cell: string }>();
  private readonly doubtful = new Map<string, { count: number; readonly line: number; readonly cell: string }>();
  private comments = 0;
  private surplus = { count: 0, line: 0 };
  private otherCuts = { count: 0, line: 0 };
  private footer: { readonly first: number; readonly last: number } | null = null;

  private readonly others: { readonly line: number; rows: number; readonly headings: string }[] = [];
  private readonly extra: ReadingNote[] = [];

  constructor(private readonly plan: TablePlan) {}

  blank(line: number): void {
    this.mark(line, "blank");
  }

  heading(line: number, row: number): void {
    this.mark(line, "heading");
    for (const { line: above } of this.pending) this.mark(above, "preamble");
    this.forgetPending();
    if (this.restarts[this.restarts.length - 1] !== row) this.restarts.push(row);
  }

  /** A line that names the date of the rows below it. @param row rows read before it */
  dated(line: number, row: number, stamp: DatedSection["stamp"]): void {
    this.mark(line, "preamble");
    this.sections.push({ row, stamp });
  }

  /** A row of data was accepted: what was pending before it is rejected. */
  data(): void {
    if (this.pendingCount > 0) this.rejectPending();
    this.flooded = false;
  }

  reject(line: number, text: string, why: string): void {
    this.data();
    this.addReject(line, why, text);
  }

  /** A line that is no row of data; what it is shows by what follows. */
  unread(line: number, text: string, cells: readonly string[]): void {
    if (isCommentRow(text, cells)) {
      this.comments++;
      this.mark(line, "comment");
      return;
    }
    this.pendingCount++;
    if (this.pending.length < PENDING_KEPT) this.pending.push({ line, text: text.slice(0, 120), ...this.judge(cells) });
    else {
      this.rejectPending();
      this.flooded = true;
    }
  }

  badCell(heading: string, line: number, cell: string): void {
    const known = this.bad.get(heading);
    if (known === undefined) this.bad.set(heading, { count: 1, line, cell: cell.slice(0, 40) });
    else known.count++;
  }

  doubtfulCell(heading: string, line: number, cell: string): void {
    const known = this.doubtful.get(heading);
    if (known === undefined) this.doubtful.set(heading, { count: 1, line, cell: cell.slice(0, 40) });
    else known.count++;
  }

  surplusCells(line: number): void {
    if (this.surplus.count++ === 0) this.surplus.line = line;
  }

  /** Another table begins: what is pending belongs to it. */
  startOtherTable(line: number, cells: readonly string[]): void {
    for (const { line: above } of this.pending) this.mark(above, "other-table");
    this.forgetPending();
    this.others.push({
      line,
      rows: 0,
      headings: cells
        .filter((cell) => cell !== "")
        .join(", ")
        .slice(0, 120),
    });
    this.mark(line, "other-table");
  }

  otherTable(line: number): void {
    this.others[this.others.length - 1].rows++;
    this.mark(line, "other-table");
  }

  otherDelimiter(line: number): void {
    if (this.otherCuts.count++ === 0) this.otherCuts.line = line;
  }

  columnsGone(line: number, headings: readonly string[]): void {
    this.extra.push({
      kind: "columns-gone",
      text: `From line ${line} on the file has no column ${headings.map((name) => `"${name}"`).join(", ")}.`,
    });
  }

  columnsCome(line: number, headings: readonly string[]): void {
    const names = headings.map((name) => `"${name}"`).join(", ");
    this.extra.push({ kind: "columns-come", text: `From line ${line} on the file has further columns, which are left out: ${names}.` });
  }

  cutCell(heading: string, line: number, cell: string, unended: boolean): void {
    const where = unended
      ? `The file ends in "${cell}" of "${heading}" in line ${line}`
      : `Line ${line} breaks off in "${cell}" of "${heading}"`;
    this.extra.push({ kind: "cut-cell", text: `${where}, shorter than every other number there: left out.` });
  }

  finish(): void {
    if (this.pending.length === 0) return;
    if (this.flooded || this.pending.some((row) => row.likeData)) {
      this.rejectPending();
      return;
    }
    this.footer = { first: this.pending[0].line, last: this.pending[this.pending.length - 1].line };
    for (const { line } of this.pending) this.mark(line, "footer");
    this.forgetPending();
  }

  notes(): ReadingNote[] {
    const notes: ReadingNote[] = [];
    for (const [heading, { count, line, cell }] of this.bad) {
      const cells = count === 1 ? "One cell is" : `${count} cells are`;
      if (isBeyondLimit(cell)) {
        const text = `${cells} only said to lie below or above a limit in "${heading}" and taken for missing, first in line ${line}: "${cell}".`;
        notes.push({ kind: "beyond-limit", text });
        continue;
      }
      notes.push({ kind: "bad-cells", text: `${cells} no number in "${heading}" and left out, first in line ${line}: "${cell}".` });
    }
    for (const [heading, { count, line, cell }] of this.doubtful) {
      const cells = count === 1 ? "One number carries" : `${count} numbers carry`;
      notes.push({ kind: "marked-cells", text: `${cells} a mark in "${heading}" and count as read, first in line ${line}: "${cell}".` });
    }
    if (this.comments > 0) notes.push({ kind: "comments", text: `${this.comments} comment lines among the rows were passed over.` });
    if (this.restarts.length > 0)
      notes.push({ kind: "repeated-headings", text: `The headings are written again ${this.restarts.length} times among the rows.` });
    if (this.surplus.count > 0)
      notes.push({
        kind: "surplus-cells",
        text: `${this.surplus.count} rows have text behind the last column, first in line ${this.surplus.line}; it was left out.`,
      });
    if (this.otherCuts.count > 0)
      notes.push({
        kind: "delimiter-changes",
        text: `${this.otherCuts.count} rows part their cells with another mark than the rest, first in line ${this.otherCuts.line}; they were read.`,
      });
    if (this.footer !== null)
      notes.push({
        kind: "footer",
        text: `Lines ${this.footer.first} to ${this.footer.last} below the rows are not data and were left out.`,
      });
    for (const { line, rows, headings } of this.others)
      notes.push({
        kind: "other-table",
        text: `From line ${line} on stands another table (${headings}); its ${rows} lines were left out.`,
      });
    return [...notes, ...this.extra];
  }

  private judge(cells: readonly string[]): { why: string; likeData: boolean } {
    const timeCells = this.plan.clock.columns.map((index) => cells[index] ?? "");
    const likeTime = timeCells.some((cell) => cell !== "" && ["time", "number"].includes(cellKind(cell, this.plan.numbers)));
    if (likeTime && cells.length > 1) {
      const read = !Number.isNaN(this.plan.clock.parse(timeCells));
      return {
        why: read ? "no value in it is a number" : `"${timeCells.join(" ").slice(0, 40)}" is not an instant in this file's form`,
        likeData: true,
      };
    }
    return { why: "not a row of data", likeData: false };
  }

  private rejectPending(): void {
    for (const row of this.pending) this.addReject(row.line, row.why, row.text);
    this.rejected += this.pendingCount - this.pending.length;
    this.forgetPending();
  }

  private forgetPending(): void {
    this.pending = [];
    this.pendingCount = 0;
  }

  private addReject(line: number, why: string, text: string): void {
    this.rejected++;
    this.mark(line, "rejected");
    if (this.rejects.length < REJECTS_KEPT) this.rejects.push({ file: this.plan.file, row: line, why: `${why}: ${text.slice(0, 80)}` });
  }

  private mark(line: number, kind: LineKind): void {
    if (this.kinds.size < KINDS_KEPT) this.kinds.set(line, kind);
    this.latest.set(line, kind);
    if (this.latest.size > 4 * LAST_LINES) for (const old of this.latest.keys()) if (old < line - LAST_LINES) this.latest.delete(old);
  }
}
