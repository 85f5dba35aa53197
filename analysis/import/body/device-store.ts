import type { RowSink } from "./row-sink";
import { RowStore } from "./row-store";

/** Rows of several devices, sorted by the name in their key column; each device keeps its own instants. */
export class DeviceStore implements RowSink {
  count = 0;
  readonly devices = new Map<string, RowStore>();

  constructor(
    private readonly key: number,
    private readonly wide: readonly boolean[],
  ) {}

  push(line: number, time: number, row: readonly number[], cells: readonly string[]): void {
    this.count++;
    const name = cells[this.key] ?? "";
    let store = this.devices.get(name);
    if (store === undefined) {
      store = new RowStore(256, this.wide);
      this.devices.set(name, store);
    }
    store.push(line, time, row);
  }
}
