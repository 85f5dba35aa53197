import type { TimesAcross } from "../times-across";
import type { RowSink } from "./row-sink";
import { RowStore } from "./row-store";

/** Rows of several instants each, as one channel in order of time. */
export class AcrossStore implements RowSink {
  count = 0;
  readonly samples: RowStore;
  /** Rows kept until all are there: one goes down every column before the next column begins. */
  private readonly waiting: { readonly line: number; readonly time: number; readonly row: readonly number[] }[] = [];

  constructor(
    private readonly across: TimesAcross,
    wide: boolean,
  ) {
    this.samples = new RowStore(256, [wide]);
  }

  push(line: number, time: number, row: readonly number[]): void {
    this.count++;
    if (this.across.downFirst) this.waiting.push({ line, time, row: row.slice() });
    else for (const k of this.across.offsets.keys()) this.sample(line, time, row, k);
  }

  /** All rows are there. */
  finish(): void {
    if (!this.across.downFirst) return;
    for (const k of this.across.offsets.keys()) for (const { line, time, row } of this.waiting) this.sample(line, time, row, k);
  }

  private sample(line: number, time: number, row: readonly number[], k: number): void {
    this.samples.push(line, time + this.across.offsets[k], [row[k]]);
  }
}
