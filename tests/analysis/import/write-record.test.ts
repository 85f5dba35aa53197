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

/** Contract of the command line: a row is a line of a file, its cells are what was measured at its instant. Two loggers on one clock, written by hand. */
test("channels of a second logger stand in its own rows only", async () => {
  const stamp = (s: number) => new Date(Date.UTC(2024, 4, 1, 10) + s * 1000).toISOString().slice(0, 19).replace("T", " ");
  const pressure = Array.from({ length: 12 }, (_, i) => `${stamp(10 * i)},${(3 + i / 100).toFixed(2)}`);
  const flow = Array.from({ length: 4 }, (_, i) => `${stamp(30 * i)},${i + 1}`);
  const [, ...rows] = await rowsOf(`Time,Pressure (bar)\n${pressure.join("\n")}\n`, `Time,Flow (m3/s)\n${flow.join("\n")}\n`);
  const cells = rows.map(([, instant, bar, flowing, file]) => ({
    s: (Date.parse(instant) - Date.UTC(2024, 4, 1, 10)) / 1000,
    bar,
    flowing,
    file,
  }));
  expect(cells).toHaveLength(16);
  for (const { s, bar, flowing, file } of cells) {
    expect(bar).toBe(file === "part0.csv" ? String(300_000 + s * 100) : "");
    expect(flowing).toBe(file === "part1.csv" ? String(s / 30 + 1) : "");
  }
});

test("parts of one log beside a second logger, and a channel seldom logged, stand at their own instants", async () => {
  const stamp = (s: number) => new Date(Date.UTC(2024, 4, 1, 10) + s * 1000).toISOString().slice(0, 19).replace("T", " ");
  const part = (from: number) =>
    Array.from({ length: 30 }, (_, i) => from + i).map((i) => `${stamp(10 * i)},${3000 + i},${i % 6 === 0 ? 1000 + i : ""}`);
  const other = Array.from({ length: 20 }, (_, i) => `${stamp(30 * i + 7)},${i + 1}`);
  const [headings, ...rows] = await rowsOf(
    `Time,Pressure (Pa),Level (m)\n${part(0).join("\n")}\n`,
    `Time,Pressure (Pa),Level (m)\n${part(30).join("\n")}\n`,
    `Time,Flow (m3/s)\n${other.join("\n")}\n`,
  );
  const at = (name: string) => headings.findIndex((heading) => heading.startsWith(name));
  for (const row of rows) {
    const i = (Date.parse(row[1]) - Date.UTC(2024, 4, 1, 10)) / 10_000;
    const isOther = row.at(-1) === "part2.csv";
    expect(row[at("Pressure")]).toBe(isOther ? "" : String(3000 + i));
    expect(row[at("Level")]).toBe(isOther || i % 6 !== 0 ? "" : String(1000 + i));
    expect(row[at("Flow")]).toBe(isOther ? String(Math.round((i - 0.7) / 3) + 1) : "");
  }
});
