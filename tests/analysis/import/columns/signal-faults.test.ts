import { expect, test } from "vitest";
import { importLog } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";

/** NAMUR NE 43: 3.8 to 20.5 mA carries a measurement, at or below 3.6 and at or above 21 mA a fault. */
test("a loop signal in the fault bands is no measurement", async () => {
  const milliamperes = [4, 12, 3.6, 3.5, 0, 12, 3.8, 20.5, 21, 22, 12, 20];
  const lines = milliamperes.map((v, i) => `2024-05-06 10:00:${10 + i},${v}`);
  const { record } = await importLog([logFile(`Range: 4-20 mA = 0-10 bar\nTime,Pressure (mA)\n${lines.join("\n")}\n`)]);
  const bars = Array.from(record.channels[0].values, (v) => (Number.isNaN(v) ? null : Number((v / 1e5).toPrecision(3))));
  expect(bars).toEqual([0, 5, null, null, null, 5, -0.125, 10.3, null, null, 5, 10]);
  expect(record.faults.map((f) => [f.kind, f.channel, f.from, f.to])).toEqual([
    ["below-live-zero", "Pressure (mA)", 2, 4],
    ["above-range", "Pressure (mA)", 8, 9],
  ]);
});
