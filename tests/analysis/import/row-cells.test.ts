import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { splitRows } from "../../../analysis/import/find-format";
import { type CellFormat, splitRow } from "../../../analysis/import/row-cells";
import { splitLines } from "../../../analysis/import/survey";

const byComma: CellFormat = { separator: { kind: "character", character: "," }, quote: '"' };
const rowsOf = (text: string, format = byComma) =>
  splitRows(
    splitLines(text).map((line, i) => ({ line: i + 1, text: line })),
    format,
  ).map((row) => [...row.cells]);

/** RFC 4180, section 2, rules 1 to 7 with the examples printed there. */
describe("RFC 4180", () => {
  test.each([
    [
      "1. a line break ends each record",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "2. the last record may have none",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "5. fields may be enclosed in quotes",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "6. line breaks, quotes and commas inside quotes",
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b\nbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["7. a quote inside quotes is doubled", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ])("%s", (_, text, rows) => {
    expect(rowsOf(text)).toEqual(rows);
  });
});

/** csv-spectrum (npm): CSV files and what they must read as. */
describe("csv-spectrum", () => {
  const folder = dirname(createRequire(import.meta.url).resolve("csv-spectrum"));
  // location_coordinates is left out: the phone numbers of its two files differ.
  const names = [
    "comma_in_quotes",
    "empty",
    "empty_crlf",
    "escaped_quotes",
    "json",

    "newlines",
    "newlines_crlf",
    "quotes_and_newlines",
    "simple",
    "simple_crlf",
    "utf8",
  ];
  test.each(names)("%s", (name) => {
    const [headings, ...rows] = rowsOf(readFileSync(join(folder, "csvs", `${name}.csv`), "utf8"));
    const read: Record<string, string> | Record<string, string>[] = JSON.parse(readFileSync(join(folder, "json", `${name}.json`), "utf8"));
    const expected = [read].flat();
    // Line ends inside a cell come out as LF, cells without the blanks around them.
    const tidy = (text: string) => text.replaceAll("\r\n", "\n").trim();
    expect(rows.filter((row) => row.length > 1).map((row) => headings.map((heading, i) => [heading, row[i]]))).toEqual(
      expected.map((row) => Object.entries(row).map(([key, value]) => [tidy(key), tidy(value)])),
    );
  });
});

test("any table written by papaparse comes back", () => {
  const cell = fc
    .string({ unit: fc.constantFrom("a", "B", "7", ".", " ", ",", ";", '"', "'", "\n", "é", "-"), maxLength: 8 })
    .map((text) => text.trim());
  fc.assert(
    fc.property(
      fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 12 }),
      fc.constantFrom(",", ";", "\t", "|"),
      (table, delimiter) => {
        const text = Papa.unparse(table, { delimiter, newline: "\r\n", quotes: true });
        const format: CellFormat = { separator: { kind: "character", character: delimiter }, quote: '"' };
        // A cell that itself begins and ends with the marks of a text guard loses them: that is wanted.
        const guarded = table.some((row) => row.some((value) => /^'[\d+-]|^="|^[−–]/.test(value)));
        if (!guarded) expect(rowsOf(text, format)).toEqual(table);
      },
    ),
    { numRuns: 500 },
  );
});

test("a heading wider than its column of fixed width is not cut", () => {
  const format: CellFormat = { separator: { kind: "fixed-width", starts: [0, 10, 14] }, quote: '"' };
  expect(splitRow("Time      Pressure  F", format)).toEqual(["Time", "Pressure", "F"]);
});
