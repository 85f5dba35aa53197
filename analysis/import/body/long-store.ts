import type { LongForm } from "../long-form";
import type { RowSink } from "./row-sink";
import { RowStore } from "./row-store";

export type LongChannel = { readonly key: string; readonly unit: string | null; readonly store: RowStore };

/** Rows in long form, sorted by the name of their channel; each channel keeps its own instants. */
export class LongStore implements RowSink {
  count = 0;
  readonly channels = new Map<string, LongChannel>();

  constructor(private readonly form: LongForm) {}

  push(line: number, time: number, row: readonly number[], cells: readonly string[]): void {
    this.count++;
    const key = cells[this.form.key] ?? "";
    let channel = this.channels.get(key);
    if (channel === undefined) {
      const unit = this.form.unit === null ? null : (cells[this.form.unit] ?? null);
      channel = { key, unit, store: new RowStore(256, [true]) };
      this.channels.set(key, channel);
    }
    channel.store.push(line, time, row);
  }
}
