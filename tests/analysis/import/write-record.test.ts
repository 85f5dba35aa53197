import Papa from "papaparse";
import { expect, test } from "vitest";
import { importLog } from "../../../analysis/import/import-log";
import { writeRecord } from "../../../analysis/import/write-record";
import { logFile } from "../../builders/log-file";

const rowsOf = async (...texts: string[]) => {
  const { record } = await importLog(texts.map((text, i) => logFile(text, `part${i}.csv`)));
  return Papa.parse<string[]>([...writeRecord(record)].join("").trimEnd()).data; // papaparse as an independent reader of RFC 4180
};

test("each accepted row comes with its line, its instant in UTC and SI values", async () => {
  const rows = await rowsOf(
    "Time,Pressure (bar),Temp (°C)\n2024-05-01 10:00:00,4.5,20\n\n2024-05-01 10:00:01,,21\n2024-05-01 10:00:02,4.25,22\n",
  );
  expect(rows).toEqual([
    ["line", "instant", "Pressure (bar)", "Temp (°C)"],
    ["2", "2024-05-01T10:00:00.000Z", "450000", "293.15"],
    ["4", "2024-05-01T10:00:01.000Z", "", "294.15"],
    ["5", "2024-05-01T10:00:02.000Z", "425000", "295.15"],
  ]);
});

/** OWASP, CSV Injection: cells that begin with =, +, -, @, tab or CR must not reach a spreadsheet as they are. */
test("a heading that a spreadsheet would run is kept as text", async () => {
  const [headings] = await rowsOf(
    'Time,"=HYPERLINK(""http://x"",""y"")",@cmd,+1+1\n2024-05-01 10:00:00,1,2,3\n2024-05-01 10:00:01,4,5,6\n',
  );
  expect(headings.slice(2)).toEqual(['\'=HYPERLINK("http://x","y")', "'@cmd", "'+1+1"]);
});
