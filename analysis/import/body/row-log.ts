import type { LineKind } from "../../../shared/record/file-layout";
import type { RejectedRow } from "../../../shared/record/log-record";
import type { ReadingNote } from "../../../shared/wording/reading-note";
import type { RowRefusal } from "../../../shared/wording/row-refusal";
import { cellKind } from "../cell-kind";
import type { DatedSection } from "../clock/dated-sections";
import { isCommentRow } from "../head-table";
import { isBeyondLimit } from "../number-format";
import type { TablePlan } from "../table-plan";

const REJECTS_KEPT = 100;
const KINDS_KEPT = 1000;
const LAST_LINES = 40;
const PENDING_KEPT = 200;

type Pending = { readonly line: number; readonly text: string; readonly why: RowRefusal; readonly likeData: boolean };

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

  reject(line: number, text: string, why: RowRefusal): void {
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
    this.extra.push({ kind: "columns-gone", line, headings });
  }

  columnsCome(line: number, headings: readonly string[]): void {
    this.extra.push({ kind: "columns-come", line, headings });
  }

  cutCell(heading: string, line: number, cell: string, endsFile: boolean): void {
    this.extra.push({ kind: "cut-cell", line, cell, heading, endsFile });
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
    for (const [heading, cells] of this.bad)
      notes.push({ kind: isBeyondLimit(cells.cell) ? "beyond-limit" : "bad-cells", heading, ...cells });
    for (const [heading, cells] of this.doubtful) notes.push({ kind: "marked-cells", heading, ...cells });
    if (this.comments > 0) notes.push({ kind: "comments", count: this.comments });
    if (this.restarts.length > 0) notes.push({ kind: "repeated-headings", times: this.restarts.length });
    if (this.surplus.count > 0) notes.push({ kind: "surplus-cells", ...this.surplus });
    if (this.otherCuts.count > 0) notes.push({ kind: "delimiter-changes", ...this.otherCuts });
    if (this.footer !== null) notes.push({ kind: "footer", from: this.footer.first, to: this.footer.last });
    for (const other of this.others) notes.push({ kind: "other-table-among", ...other });
    return [...notes, ...this.extra];
  }

  private judge(cells: readonly string[]): { why: RowRefusal; likeData: boolean } {
    const timeCells = this.plan.clock.columns.map((index) => cells[index] ?? "");
    const likeTime = timeCells.some((cell) => cell !== "" && ["time", "number"].includes(cellKind(cell, this.plan.numbers)));
    if (likeTime && cells.length > 1) {
      const read = !Number.isNaN(this.plan.clock.parse(timeCells));
      return {
        why: read ? { kind: "no-number" } : { kind: "no-instant", cell: timeCells.join(" ").slice(0, 40) },
        likeData: true,
      };
    }
    return { why: { kind: "no-data" }, likeData: false };
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

  private addReject(line: number, why: RowRefusal, text: string): void {
    this.rejected++;
    this.mark(line, "rejected");
    if (this.rejects.length < REJECTS_KEPT) this.rejects.push({ file: this.plan.file, row: line, why, text: text.slice(0, 80) });
  }

  private mark(line: number, kind: LineKind): void {
    if (this.kinds.size < KINDS_KEPT) this.kinds.set(line, kind);
    this.latest.set(line, kind);
    if (this.latest.size > 4 * LAST_LINES) for (const old of this.latest.keys()) if (old < line - LAST_LINES) this.latest.delete(old);
  }
}
