import { expect, test } from "vitest";
import { importLog } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";

const COLUMNS = "Time,Pressure (bar)";
/** 20 rows, 10 s apart, on the day that is given as it is written. */
const log = (day: string, columns = COLUMNS) =>
  `${columns}\n${Array.from({ length: 20 }, (_, i) => `${day} 08:${15 + Math.floor(i / 6)}:${(i % 6) * 10 + 10 === 60 ? "00" : (i % 6) * 10},${4 + (i % 3) / 10}`).join("\n")}\n`;
const read = async (...texts: string[]) => (await importLog(texts.map((text, i) => logFile(text, `${i}.csv`)))).record;
const asked = (record: Awaited<ReturnType<typeof read>>) => record.questions.map(({ id }) => id);

test("a file of the same columns with a day above 12 settles the order for the others", async () => {
  for (const [open, sure] of [
    ["03/04/2024", "13/04/2024"],
    ["04/03/2024", "04/13/2024"],
  ]) {
    const record = await read(log(open), log(sure));
    expect(asked(record)).toEqual([]);
    expect(record.clock).toMatchObject({ epoch: Date.UTC(2024, 3, 3, 8, 15) / 1000 });
    expect(record.notes).toContainEqual({ kind: "date-order", by: expect.objectContaining({ file: "0.csv" }) });
  }
});

test("a file with other columns, or one whose dates prove nothing, settles none", async () => {
  expect(asked(await read(log("03/04/2024"), log("13/04/2024", "Time,Suction pressure (bar)")))).toContain("date-order");
  expect(asked(await read(log("03/04/2024"), log("2024-04-04")))).toContain("date-order");
  expect(asked(await read(log("03/04/2024"), log("04/04/2024")))).toContain("date-order");
});
