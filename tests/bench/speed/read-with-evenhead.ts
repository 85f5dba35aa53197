import { importLog, NO_CHOICES } from "../../../analysis/import/import-log";
import { openLog } from "../../../src/command-line/files";

/** Reads a log the way the command line does; sums are of the values as the record holds them (SI). */
export async function readWhole(path: string): Promise<{ rows: number; sums: number[] }> {
  const { record } = await importLog([await openLog(path)], NO_CHOICES);
  const sums = record.channels.map(({ values }) => {
    let sum = 0;
    for (let i = 0; i < values.length; i++) sum += values[i];
    return sum;
  });
  return { rows: record.rows.accepted, sums: [record.clock.kind === "absolute" ? record.clock.epoch : 0, ...sums] };
}
