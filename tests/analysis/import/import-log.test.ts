import { describe, expect, test } from "vitest";
import { importLog } from "../../../analysis/import/import-log";
import { timesOf } from "../../../shared/record/sampling";
import { logFile } from "../../builders/log-file";

const stamp = (i: number) => `2024-05-01 00:00:${String(i).padStart(2, "0")}`;
const read = async (text: string, chunk?: number) => (await importLog([logFile(text, "log.csv", chunk)])).record;
const valuesOf = (record: Awaited<ReturnType<typeof read>>) =>
  record.channels.map((channel) => Array.from(channel.values, (v) => Number(v.toPrecision(7))));

describe("a plain log", () => {
  const rows = [4.1, 4.2, 4.3, 4.4, 4.5, 4.6];
  const table = (delimiter: string, mark: string) =>
    ["Time", "Level A", "Level B"].join(delimiter) +
    "\n" +
    rows.map((v, i) => [stamp(i), v, v + 10].join(delimiter).replaceAll(".", mark)).join("\n") +
    "\n";

  test.each([
    [",", "."],
    [";", "."],
    [";", ","],
    ["\t", "."],
    ["\t", ","],
    ["|", "."],
  ])("with delimiter %j and decimal mark %j", async (delimiter, mark) => {
    const record = await read(table(delimiter, mark));
    expect(valuesOf(record)).toEqual([rows, rows.map((v) => Number((v + 10).toPrecision(7)))]);
    expect(Array.from(timesOf(record.channels[0].sampling))).toEqual([0, 1, 2, 3, 4, 5]);
    expect(record.channels[0].sampling).toBe(record.channels[1].sampling);
    expect(record.rows).toEqual({ accepted: 6, rejected: 0, duplicate: 0, reordered: 0 });
  });

  test("whatever the size of its chunks", async () => {
    const whole = await read(table(";", ","));
    for (const chunk of [1, 2, 7, 61]) expect(await read(table(";", ","), chunk)).toEqual(whole);
  });
});

test("a bad row is named by its line and costs only itself", async () => {
  const record = await read(`Time,Level\n${stamp(0)},1\nnonsense 12,4,4\n${stamp(2)},3\n${stamp(3)},4\n`);
  expect(record.rows.accepted).toBe(3);
  expect(record.rejects.map((reject) => reject.row)).toEqual([3]);
  expect(record.origins[0].lines).toEqual(Uint32Array.of(2, 4, 5));
});

test("names that mean something to the language are just names", async () => {
  const record = await read(`Time,__proto__,constructor,<script>alert(1)</script>\n${stamp(0)},1,2,3\n${stamp(1)},4,5,6\n`);
  expect(record.channels.map((channel) => channel.heading)).toEqual(["__proto__", "constructor", "<script>alert(1)</script>"]);
  expect(valuesOf(record)).toEqual([
    [1, 4],
    [2, 5],
    [3, 6],
  ]);
});
