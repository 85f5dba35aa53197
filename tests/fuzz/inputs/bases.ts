import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync, zipSync } from "fflate";
import { writeVisitFile } from "../../../shared/schemas/visit-file";
import { visitFile } from "../../builders/visit-files";
import { workbook } from "../../builders/workbook";

/** The built script runs from dist, the tests from here: both are called at the top of the project. */
export const TOP = process.cwd();

/** Files of a folder, the large ones by their first 60 kB. */
const filesOf = (folder: string, wanted: RegExp): Uint8Array[] =>
  readdirSync(join(TOP, folder))
    .filter((name) => wanted.test(name))
    .sort()
    .map((name) => Uint8Array.from(readFileSync(join(TOP, folder, name)).subarray(0, 60_000)));

export const LOGS: readonly Uint8Array[] = [
  ...filesOf("sample-data/dialects", /\.(?:csv|txt|tsv)$/),
  ...filesOf("sample-data/broken", /\.(?:csv|txt|bin)$/),
  ...filesOf("sample-data/visits", /\.csv$/),
];

const text = (words: string) => new TextEncoder().encode(words);
const small = LOGS.filter(({ length }) => length > 0 && length < 4000);
const day = new Date(Date.UTC(2024, 4, 1, 10));
const sheet = Array.from({ length: 12 }, (_, i) => [new Date(day.getTime() + i * 60_000), 4 + i / 10, 12 - i / 5]);

/** Packed in every way the importer opens. */
export const CONTAINERS: readonly Uint8Array[] = [
  zipSync({ "a.csv": small[0] }),
  zipSync({ "a.csv": small[1], "folder/b.csv": small[2], "readme.txt": text("none"), "__proto__.csv": small[3] }),
  zipSync({ "a.csv": [small[4], { level: 0 }] }),
  zipSync({ "a.bin": small[0] }),
  gzipSync(small[0]),
  Uint8Array.from([...gzipSync(small[1]), ...gzipSync(small[1])]),
  workbook({ Sheet1: [["Time", "Pressure (bar)", "Flow (L/min)"], ...sheet] }),
  workbook({ Sheet1: [["Time", "Pressure (bar)"], ...sheet], Empty: [], Other: [["note", 5, null, day]] }),
];

/** Archives whose contents are far larger than they are: what unpacks them must hold to the limits that are said. */
export function bombs(): Record<string, Uint8Array> {
  const zeros = new Uint8Array(200_000_000);
  const digits = new Uint8Array(200_000_000).fill(0x31);
  const xml = (body: string) => text(`<?xml version="1.0"?>${body}`);
  const parts = (cells: Uint8Array) => ({
    "[Content_Types].xml": xml("<Types/>"),
    "xl/workbook.xml": xml('<workbook xmlns:r="r"><sheets><sheet name="A" sheetId="1" r:id="r1"/></sheets></workbook>'),
    "xl/_rels/workbook.xml.rels": xml(
      '<Relationships><Relationship Id="r1" Type="x/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
    ),
    "xl/worksheets/sheet1.xml": cells,
  });
  const nested = zipSync({ "a.csv": digits }, { level: 9 });
  return {
    "zeros.gz": gzipSync(zeros, { level: 9 }),
    "digits.gz": gzipSync(digits, { level: 9 }),
    "digits.zip": nested,
    "many-entries.zip": zipSync(Object.fromEntries(Array.from({ length: 1500 }, (_, i) => [`${i}.csv`, small[0]]))),
    "zip-in-zip.zip": zipSync({ "a.zip": nested, "a.csv": nested }),
    "sheet.xlsx": zipSync(parts(digits), { level: 9 }),
    "two-sheets.xlsx": zipSync({ ...parts(digits), "xl/worksheets/sheet2.xml": digits }, { level: 9 }),
    "cells.xlsx": zipSync(
      parts(xml(`<worksheet><sheetData>${'<row><c t="inlineStr"><is><t>1</t></is></c></row>'.repeat(400_000)}</sheetData></worksheet>`)),
      { level: 9 },
    ),
  };
}

export const VISIT_TEXTS: readonly string[] = [
  writeVisitFile(visitFile()),
  writeVisitFile(visitFile({ log: null })),
  readFileSync(join(TOP, "tests/shared/schemas/visit-version-1.json"), "utf8"),
];
