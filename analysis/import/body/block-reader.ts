import { decodeText, withoutNul } from "../encoding";
import type { Survey } from "../survey";
import type { TablePlan } from "../table-plan";
import type { PlainPart } from "./plain-part";
import type { PlainRows } from "./plain-rows";
import type { RowLog } from "./row-log";
import type { TextRows } from "./text-rows";
import type { LineBlock } from "./whole-lines";

const LF = 10;

/** Walks the lines of each block: plain rows by their bytes, the others as text. */
export class BlockReader {
  /** Lines passed so far. */
  line = 0;
  private ended = true;

  constructor(
    private readonly plan: TablePlan,
    private readonly survey: Survey,
    private readonly log: RowLog,
    private readonly rows: TextRows,
    private readonly plain: PlainRows | null,
  ) {}

  take(block: LineBlock): void {
    const whole = block.bytes.lastIndexOf(LF, block.to - 1) + 1;
    let at = this.skipAbove(block);
    if (block.nuls > 0 && at < block.to) this.log.cells.nulBytes(this.line + 1, block.nuls);
    while (at < block.to) {
      if (this.plain !== null && at < whole && !block.cut && !this.rows.wantsNext) {
        at = this.takePlain(this.plain, block.bytes, at, whole);
        if (at >= block.to) return;
      }
      at = this.takeText(block, at);
    }
  }

  /** Plain rows read elsewhere, that follow those read so far. */
  takeOver(part: PlainPart): void {
    if (this.plain === null) return;
    this.log.data();
    this.plain.store.append(part);
    this.plain.store.lines.pushRun(this.line + 1, part.rows);
    this.line += part.rows;
  }

  private takePlain(plain: PlainRows, bytes: Uint8Array, from: number, to: number): number {
    const at = plain.take(bytes, from, to);
    if (plain.taken > 0) {
      this.log.data();
      plain.store.lines.pushRun(this.line + 1, plain.taken);
      this.line += plain.taken;
    }
    return at;
  }

  private takeText(block: LineBlock, at: number): number {
    const { encoding } = this.survey.encoding;
    this.line++;
    const end = this.lineEnd(block, at);
    if (block.cut) this.log.reject(this.line, decodeText(block.bytes.subarray(at, at + 80), encoding), { kind: "too-long" });
    else {
      const bytes = block.bytes.subarray(at, end);
      const text = withoutNul(bytes);
      if (text.length < bytes.length) this.log.cells.nulBytes(this.line, bytes.length - text.length);
      this.rows.takeLine(decodeText(withoutReturn(text), encoding), this.line, !this.ended);
    }
    return end + 1;
  }

  /** Passes the lines above the data. */
  private skipAbove(block: LineBlock): number {
    let at = block.from;
    while (at < block.to && this.line + 1 < this.plan.firstLine) {
      this.line++;
      at = this.lineEnd(block, at) + 1;
    }
    return at;
  }

  private lineEnd(block: LineBlock, at: number): number {
    const found = block.bytes.indexOf(LF, at);
    this.ended = found >= 0 && found < block.to;
    return this.ended ? found : block.to;
  }
}

function withoutReturn(bytes: Uint8Array): Uint8Array {
  let to = bytes.length;
  while (to > 0 && bytes[to - 1] === 13) to--;
  return bytes.subarray(0, to);
}
