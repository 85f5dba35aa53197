import { strToU8, Zip, ZipDeflate, zipSync } from "fflate";
import { expect, test } from "vitest";
import { writeVisitFile } from "../../../shared/schemas/visit-file";
import { archivedVisits, type FromArchive } from "../../../src/storage/archive";
import { visitFile } from "../../builders/visit-files";

const text = writeVisitFile(visitFile({ log: null }));
const file = (bytes: Uint8Array) => new File([Uint8Array.from(bytes)], "visits.zip");
async function all(...files: readonly File[]): Promise<readonly FromArchive[]> {
  const found: FromArchive[] = [];
  for await (const one of archivedVisits(files)) found.push(one);
  return found;
}
const told = (found: readonly FromArchive[]) => found.map((one) => [one.name, "text" in one ? one.text === text : one.problem.id]);
/** The size that the archive's directory names for its first entry (PKWARE APPNOTE 4.3.12: 24 bytes into the central header). */
const withSize = (zip: Uint8Array, size: number) => {
  const bytes = Buffer.from(zip);
  bytes.writeUInt32LE(size, bytes.indexOf(Buffer.from([0x50, 0x4b, 1, 2])) + 24);
  return Uint8Array.from(bytes);
};

test("the visits of an archive are opened, packed or stored, and nothing else in it", async () => {
  const zip = zipSync({ "a.json": strToU8(text), "b.json": [strToU8(text), { level: 0 }], "c.exe": strToU8("x") });
  expect(told(await all(file(zip)))).toEqual([
    ["a.json", true],
    ["b.json", true],
  ]);
});

test("an archive written piece after piece, whose own headers name no sizes, is opened as well", async () => {
  const pieces: Uint8Array[] = [];
  const zip = new Zip((_error, piece) => pieces.push(piece));
  const entry = new ZipDeflate("a.json", { level: 1 });
  zip.add(entry);
  entry.push(strToU8(text), true);
  zip.end();
  expect(told(await all(file(Buffer.concat(pieces))))).toEqual([["a.json", true]]);
});

test("an entry that would unpack beyond what a browser can hold, or beyond the size it names, is refused and costs no other", async () => {
  const zip = zipSync({ "a.json": strToU8(text), "b.json": strToU8(text) });
  expect(told(await all(file(withSize(zip, 3_000_000_000))))).toEqual([
    ["a.json", "too-large"],
    ["b.json", true],
  ]);
  expect(told(await all(file(withSize(zip, 10))))).toEqual([
    ["a.json", "entry-damaged"],
    ["b.json", true],
  ]);
});

test("a damaged entry costs no other, and an archive cut short is refused by its name, beside a sound file", async () => {
  const zip = Buffer.from(zipSync({ "a.json": strToU8(text), "b.json": strToU8(text) }));
  const broken = Buffer.from(zip);
  broken.fill(0xff, 60, 90);
  expect(told(await all(file(broken)))).toEqual([
    ["a.json", "entry-damaged"],
    ["b.json", true],
  ]);
  expect(told(await all(file(zip.subarray(0, zip.length - 30)), new File([text], "c.evenhead.json")))).toEqual([
    ["visits.zip", "archive-damaged"],
    ["c.evenhead.json", true],
  ]);
});

test("what is no visit in it costs nothing", async () => {
  expect(await all(file(zipSync({ "readme.txt": new Uint8Array(1_000_000) })))).toEqual([]);
});
