import { expect, test } from "vitest";
import { importLog } from "../../../analysis/import/import-log";
import { logFile } from "../../builders/log-file";

test("the small picture of a column shows the whole swing, also where the swing goes with the picked places", async () => {
  const rows = Array.from({ length: 300 }, (_, i) => `${new Date(i * 1000).toISOString()},${3 + (i % 5) / 10}`);
  const { layouts } = await importLog([logFile(`Time,Pressure (bar)\n${rows.join("\n")}\n`)]);
  const { picture } = layouts[0].columns[1];
  expect(picture).toHaveLength(60);
  // a stretch holds ten rows, two whole swings
  for (let k = 0; k < 60; k += 2) expect([picture[k], picture[k + 1]].sort()).toEqual([3, 3.4]);
});
