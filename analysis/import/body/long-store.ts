import { findUnit } from "../../../shared/units/unit-table";
import { ownUnit } from "../columns/unit-column";
import { unitOfCell } from "../columns/unit-from-text";
import type { LongForm } from "../long-form";
import type { RowSink } from "./row-sink";
import { RowStore } from "./row-store";

export type LongChannel = { readonly key: string; readonly unit: string | null; readonly store: RowStore };

/** A value in the unit of its channel, where its row names another: a logger may choose its range from row to row. */
function inUnit(value: number, own: string | null, usual: string | null): number {
  if (own === usual) return value;
  const unit = ownUnit("", usual, own);
  const target = unit === null || usual === null ? null : findUnit(usual);
  return unit === null || target === null ? value : (value * unit.factor + unit.offset - target.offset) / target.factor;
}

/** Rows in long form, sorted by the name of their channel; each channel keeps its own instants. */
export class LongStore implements RowSink {
  count = 0;
  readonly channels = new Map<string, LongChannel>();

  constructor(private readonly form: LongForm) {}

  /** In a column of its own, or stuck to the value. */
  private unitOf(cells: readonly string[]): string | null {
    if (this.form.unit !== null) return cells[this.form.unit] ?? null;
    const value = cells[this.form.value] ?? "";
    const last = value.charCodeAt(value.length - 1);
    return last >= 48 && last <= 57 ? null : (unitOfCell(value)?.text ?? null);
  }

  push(line: number, time: number, row: readonly number[], cells: readonly string[]): void {
    this.count++;
    const key = cells[this.form.key] ?? "";
    let channel = this.channels.get(key);
    const beside = this.unitOf(cells);
    if (channel === undefined) {
      channel = { key, unit: beside, store: new RowStore(256, [true]) };
      this.channels.set(key, channel);
    }
    channel.store.push(line, time, row.length === 1 ? [inUnit(row[0], beside, channel.unit)] : row);
  }
}
