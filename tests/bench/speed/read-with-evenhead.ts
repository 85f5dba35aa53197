import { importLog, NO_CHOICES } from "../../../analysis/import/import-log";
import type { Channel } from "../../../shared/record/log-record";
import { findUnit } from "../../../shared/units/unit-table";
import { openLog } from "../../../src/command-line/files";

/** Reads a log the way the command line does, without its fingerprint; sums are in the units of the file, as other readers see them. */
export async function readWhole(path: string): Promise<{ rows: number; sums: number[] }> {
  const { record } = await importLog([await openLog(path)], NO_CHOICES);
  return {
    rows: record.rows.accepted,
    sums: [record.clock.kind === "absolute" ? record.clock.epoch : 0, ...record.channels.map(sumInFile)],
  };
}

function sumInFile({ values, unitInFile }: Channel): number {
  const unit = unitInFile === null ? null : findUnit(unitInFile);
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    sum += values[i];
    count++;
  }
  return unit === null ? sum : (sum - count * unit.offset) / unit.factor;
}
