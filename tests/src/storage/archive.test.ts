import { strToU8, zipSync } from "fflate";
import { expect, test } from "vitest";
import { writeVisitFile } from "../../../shared/schemas/visit-file";
import { readArchive } from "../../../src/storage/archive";
import { visitFile } from "../../builders/visit-files";

const text = writeVisitFile(visitFile({ log: null }));
const file = (bytes: Uint8Array) => new File([Uint8Array.from(bytes)], "visits.zip");
/** The size that the archive's directory names for its entry (PKWARE APPNOTE 4.3.12: 24 bytes into the central header). */
const withSize = (zip: Uint8Array, size: number) => {
  const bytes = Buffer.from(zip);
  bytes.writeUInt32LE(size, bytes.indexOf(Buffer.from([0x50, 0x4b, 1, 2])) + 24);
  return Uint8Array.from(bytes);
};

test("the visits of an archive are opened, and nothing else in it", async () => {
  const visits = await readArchive([file(zipSync({ "a.json": strToU8(text), "b.json": strToU8(text), "c.exe": strToU8("x") }))]);
  expect(visits.map(({ name, text: opened }) => [name, opened === text])).toEqual([
    ["a.json", true],
    ["b.json", true],
  ]);
});

test("an archive that would unpack beyond the limit is handed on unopened, to be refused by its name", async () => {
  const [only, ...others] = await readArchive([file(withSize(zipSync({ "a.json": strToU8(text) }), 3_000_000_000))]);
  expect(others).toEqual([]);
  expect(only.name).toBe("visits.zip");
  expect(only.files).toEqual([]);
});

test("what is no visit in it costs nothing", async () => {
  const visits = await readArchive([file(zipSync({ "readme.txt": new Uint8Array(1_000_000) }))]);
  expect(visits).toEqual([]);
});
