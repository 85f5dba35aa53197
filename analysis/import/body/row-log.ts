import type { LineKind } from "../../../shared/record/file-layout";
import type { RejectedRow } from "../../../shared/record/log-record";
import type { ReadingNote } from "../../../shared/wording/reading-note";
import type { RowRefusal } from "../../../shared/wording/row-refusal";
import { cellKind } from "../cell-kind";
import type { DatedSection } from "../clock/dated-sections";
import { isCommentRow } from "../head-table";
import type { TablePlan } from "../table-plan";
import { CellLog } from "./cell-log";
import { type PendingLine, startsTable } from "./pending-line";

const REJECTS_KEPT = 100;
const KINDS_KEPT = 1000;
const LAST_LINES = 40;
const PENDING_KEPT = 200;

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
  private pending: PendingLine[] = [];
  private pendingCount = 0;
  /** More lines without data than a footer can have. */
  private flooded = false;
  /** The lines that are no data belong to a table of another kind. */
  private inTable = false;
  private comments = 0;
  /** What was noticed in the cells of rows of data. */
  readonly cells = new CellLog();
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

  /** The lines right above headings that came again, where they are not those at the top of the file; null where there are none. */
  titleAbove(): string | null {
    const isKnown = this.pending.every(({ text }) => this.plan.above.some((row) => row.text.trim() === text.trim()));
    return isKnown ? null : this.pending.map(({ text }) => text.trim()).join(" ");
  }

  /** A line that names the date of the rows below it. @param row rows read before it */
  dated(line: number, row: number, stamp: DatedSection["stamp"]): void {
    this.mark(line, "preamble");
    this.sections.push({ row, stamp });
  }

  /** A row of data was accepted: what was pending before it is rejected. */
  data(): void {
    if (this.pendingCount > 0 && !this.leaveTable()) this.rejectPending();
    this.flooded = false;
    this.inTable = false;
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
    if (this.inTable) {
      this.otherTable(line);
      return;
    }
    this.pendingCount++;
    if (this.pending.length < PENDING_KEPT) this.pending.push({ line, text: text.slice(0, 120), cells, ...this.judge(cells) });
    else if (this.leaveTable()) this.otherTable(line);
    else {
      this.rejectPending();
      this.flooded = true;
    }
  }

  /** Whether what is pending is a table of another kind, which is then left as such: lines of it may follow. */
  private leaveTable(): boolean {
    const rows = this.pending;
    const at = rows.findIndex((_, i) => startsTable(rows.slice(i)));
    if (at < 0 || rows.some((row) => row.isInstant)) return false;
    const table = rows.splice(at);
    this.startOtherTable(table[0].line, table[0].cells);
    for (const { line } of table.slice(1)) this.otherTable(line);
    this.inTable = true;
    return true;
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

  otherTable(line: number, text = "", cells: readonly string[] = []): void {
    // one cell alone is a title of what follows
    if (cells.filter((cell) => cell !== "").length === 1) {
      this.pending.push({ line, text, cells, ...this.judge(cells) });
      this.pendingCount++;
      return;
    }
    this.others[this.others.length - 1].rows++;
    this.mark(line, "other-table");
  }

  columnsGone(line: number, headings: readonly string[]): void {
    this.extra.push({ kind: "columns-gone", line, headings });
  }

  columnsCome(line: number, headings: readonly string[]): void {
    this.extra.push({ kind: "columns-come", line, headings });
  }

  /** The file ends behind a delimiter. */
  cutRow(heading: string, line: number): void {
    this.extra.push({ kind: "cut-row", line, heading });
  }

  cutCell(heading: string, line: number, cell: string, endsFile: boolean): void {
    this.extra.push({ kind: "cut-cell", line, cell, heading, endsFile });
  }

  finish(): void {
    if (this.pending.length === 0 || (!this.flooded && this.leaveTable())) return;
    if (this.flooded || this.pending.some((row) => row.likeData)) {
      this.rejectPending();
      return;
    }
    this.footer = { first: this.pending[0].line, last: this.pending[this.pending.length - 1].line };
    for (const { line } of this.pending) this.mark(line, "footer");
    this.forgetPending();
  }

  notes(): ReadingNote[] {
    const notes: ReadingNote[] = this.cells.notes();
    if (this.comments > 0) notes.push({ kind: "comments", count: this.comments });
    if (this.restarts.length > 0) notes.push({ kind: "repeated-headings", times: this.restarts.length });
    if (this.footer !== null) notes.push({ kind: "footer", from: this.footer.first, to: this.footer.last });
    for (const other of this.others) notes.push({ kind: "other-table-among", ...other });
    return [...notes, ...this.extra];
  }

  private judge(cells: readonly string[]): Pick<PendingLine, "why" | "likeData" | "isInstant"> {
    const timeCells = this.plan.clock.columns.map((index) => cells[index] ?? "");
    const likeTime = timeCells.some((cell) => cell !== "" && ["time", "number"].includes(cellKind(cell, this.plan.numbers)));
    if (likeTime && cells.length > 1) {
      const read = !Number.isNaN(this.plan.clock.parse(timeCells));
      return {
        why: read ? { kind: "no-number" } : { kind: "no-instant", cell: timeCells.join(" ").slice(0, 40) },
        likeData: true,
        isInstant: read,
      };
    }
    return { why: { kind: "no-data" }, likeData: false, isInstant: false };
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
