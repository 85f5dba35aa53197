import { gzipSync, strToU8, zipSync } from "fflate";
import { expect, test } from "vitest";
import { crc32 } from "../../../../analysis/import/containers/crc-32";
import { importLog } from "../../../../analysis/import/import-log";
import { ImportError } from "../../../../shared/problems/import-problem";
import { sayReadingNote } from "../../../../shared/wording/reading-note";
import { logFile } from "../../../builders/log-file";
import { workbook } from "../../../builders/workbook";

const table = (from: number, count: number) =>
  `Time,Pressure (bar)\n${Array.from({ length: count }, (_, i) => `2024-05-01 10:00:${String(from + i).padStart(2, "0")},${4 + (from + i) / 100}`).join("\n")}\n`;
const problemOf = async (bytes: Uint8Array) => {
  const error = await importLog([logFile(bytes, "a.zip")]).catch((caught: unknown) => caught);
  return error instanceof ImportError ? error.problem : error;
};

test("the parts in an archive are one log, and what is no log is named", async () => {
  const packed = zipSync({ "b.csv": strToU8(table(20, 20)), "a.csv": strToU8(table(0, 20)), "notes.txt": strToU8("nothing here\n") });
  const { record, layouts } = await importLog([logFile(packed, "visit.zip")]);
  expect(record.rows.accepted).toBe(40);
  expect(record.duration).toBe(39);
  expect(record.channels.map(({ values }) => values.length)).toEqual([40]);
  expect(layouts.map(({ file }) => file).sort()).toEqual(["visit.zip/a.csv", "visit.zip/b.csv"]);
  expect(record.notes).toContainEqual({
    kind: "left-out",
    problem: expect.objectContaining({ file: expect.stringContaining("notes.txt") }),
  });
});

test("a gzip file is read as what is in it", async () => {
  const { record } = await importLog([logFile(gzipSync(strToU8(table(0, 30))), "log.csv.gz")]);
  expect(record.rows.accepted).toBe(30);
});

test("a gzip file that was cut off is read as far as it goes, and it is said; a whole one says nothing", async () => {
  const many = `Time,Pressure (bar)\n${Array.from({ length: 3000 }, (_, i) => `${new Date(1.7e12 + i * 1000).toISOString()},${((i * 7919) % 997) / 100}`).join("\n")}\n`;
  const packed = gzipSync(strToU8(many));
  const notes = async (bytes: Uint8Array) => {
    const { record } = await importLog([logFile(bytes, "log.csv.gz", 1000)]);
    return {
      rows: record.rows.accepted,
      cut: record.notes.filter(({ kind }) => kind === "cut-off").map((note) => sayReadingNote(note, null)),
    };
  };
  expect(await notes(packed)).toEqual({ rows: 3000, cut: [] });
  const { rows, cut } = await notes(packed.slice(0, packed.length >> 1));
  expect(rows).toBeGreaterThan(500);
  expect(rows).toBeLessThan(3000);
  expect(cut).toEqual(["log.csv.gz stops before its packed content is over: what follows is lost. Copy it from the logger again."]);
});

// "123456789" gives 0xCBF43926: the check value that the catalogues of CRCs give for this polynomial
test("the check sum of the nine digits is the published one, in one piece or in two", () => {
  expect(crc32(strToU8("123456789"))).toBe(0xcbf43926);
  expect(crc32(strToU8("6789"), crc32(strToU8("12345")))).toBe(0xcbf43926);
});

test("what stops before its first line, or does not fit its check sum, is damaged and not empty", async () => {
  const packed = gzipSync(strToU8(table(0, 30)));
  const changed = (at: number) => packed.map((byte, i) => (i === at ? byte ^ 1 : byte));
  expect(await problemOf(packed.slice(0, 14))).toMatchObject({ id: "damaged-archive" });
  expect(await problemOf(changed(packed.length - 7))).toMatchObject({ id: "damaged-archive" });
  const stored = zipSync({ "a.csv": strToU8(table(0, 30)) }, { level: 0 });
  const digit = Buffer.from(stored).indexOf("4.05");
  expect(await problemOf(stored.map((byte, i) => (i === digit ? 57 : byte)))).toMatchObject({ id: "damaged-archive" });
});

test("gzip files one behind the other are one file (RFC 1952, section 2.2)", async () => {
  const rows = table(20, 20).split("\n").slice(1).join("\n");
  const { record } = await importLog([logFile(Buffer.concat([gzipSync(strToU8(table(0, 20))), gzipSync(strToU8(rows))]), "log.csv.gz")]);
  expect(record.rows.accepted).toBe(40);
});

test("a workbook that names more than it may unpack to is refused with the limit, in an archive too", async () => {
  const book = Buffer.from(workbook({ Log: [["Time", "Pressure (bar)"]] }));
  for (let at = book.indexOf("PK\u0001\u0002", 0, "latin1"); at >= 0; at = book.indexOf("PK\u0001\u0002", at + 4, "latin1")) {
    book.writeUInt32LE(200_000_000, at + 24); // the unpacked size in the archive's directory, PKWARE APPNOTE 4.3.12
  }
  expect(await problemOf(Uint8Array.from(book))).toMatchObject({ id: "too-large" });
  const small = zipSync({ "a.xlsx": Uint8Array.from(book) });
  expect(await problemOf(small)).toMatchObject({ id: "too-large", what: "workbook-unpacked-size", limit: 256 * 1024 ** 2 });
});

test("a workbook gives dates, numbers and the rows of its sheet", async () => {
  const at = (s: number) => new Date(Date.UTC(2024, 4, 1, 10, 0, s));
  const rows = Array.from({ length: 20 }, (_, i) => [at(i), 4 + i / 8, i === 3 ? null : 20 + i]);
  const book = workbook({ Log: [["Exported log"], ["Time", "Pressure (bar)", "Flow (L/min)"], ...rows] });
  const { record } = await importLog([logFile(book, "book.xlsx")]);
  expect(record.clock).toMatchObject({ kind: "absolute", epoch: Date.UTC(2024, 4, 1, 10) / 1000 });
  expect(record.channels[0].sampling).toEqual({ kind: "even", start: 0, step: 1, count: 20 });
  expect(Array.from(record.channels[0].values.slice(0, 3))).toEqual([400_000, 412_500, 425_000]);
  expect(record.channels[1].values[3]).toBeNaN();
  expect(record.origins[0].lines).toEqual({ first: 3, step: 1 });
});

test("damaged, empty and lying archives are refused with a problem of their own", async () => {
  const good = zipSync({ "a.csv": strToU8(table(0, 20)) });
  expect(await problemOf(good.slice(0, good.length - 30))).toMatchObject({ id: "damaged-archive" });
  expect(await problemOf(zipSync({ "picture.png": Uint8Array.of(1, 2, 3) }))).toMatchObject({ id: "damaged-archive" });
  const many = Object.fromEntries(Array.from({ length: 1200 }, (_, i) => [`${i}.csv`, Uint8Array.of(49)]));
  expect(await problemOf(zipSync(many))).toMatchObject({ id: "too-large", limit: 1000 });
});
