import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { main } from "../../../src/command-line/main";
import { type Disk, WriteError, writeWhole } from "../../../src/command-line/write-whole";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "write-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const failing = (code: string) => Object.assign(new Error(code), { code });
/** A disk that takes so many bytes and is full then. */
const fullAfter = (room: number): Disk => ({
  async write(path, content) {
    const bytes = Buffer.from(typeof content === "string" ? content : [...(content as Iterable<string>)].join(""));
    await writeFile(path, bytes.subarray(0, room));
    if (bytes.length > room) throw failing("ENOSPC");
  },
  rename: async (from, to) => writeFileSync(to, readFileSync(from)),
  remove: async (path) => rmSync(path, { force: true }),
});

test.each([0, 1, 4999])("a disk that is full after %i bytes leaves what was there, and no half file", async (room) => {
  const path = join(folder, "findings.json");
  await writeWhole(path, "before");
  await expect(writeWhole(path, "x".repeat(5000), fullAfter(room))).rejects.toThrow(
    "findings.json could not be written (the disk is full). What stood under that name before is untouched.",
  );
  expect(readdirSync(folder)).toEqual(["findings.json"]);
  expect(readFileSync(path, "utf8")).toBe("before");
});

test("a name that cannot be taken leaves no half file either", async () => {
  const disk: Disk = { ...fullAfter(1e9), rename: () => Promise.reject(failing("EACCES")) };
  await expect(writeWhole(join(folder, "a.json"), "x", disk)).rejects.toThrow("not permitted");
  expect(readdirSync(folder)).toEqual([]);
});

test("where even the half file cannot be taken away, the first reason is told", async () => {
  const disk: Disk = { ...fullAfter(0), remove: () => Promise.reject(failing("EIO")) };
  await expect(writeWhole(join(folder, "a.json"), "x", disk)).rejects.toThrow("the disk is full");
});

test("text, bytes and pieces are written whole, and nothing else stays behind", async () => {
  await writeWhole(join(folder, "a"), "text");
  await writeWhole(join(folder, "b"), new Uint8Array([1, 2, 3]));
  await writeWhole(join(folder, "c"), ["one\n", "two\n"]);
  expect(["a", "b", "c"].map((name) => readFileSync(join(folder, name), "latin1"))).toEqual(["text", "\u0001\u0002\u0003", "one\ntwo\n"]);
  expect(readdirSync(folder)).toHaveLength(3);
});

test("pieces that break in the middle leave what was there", async () => {
  await writeWhole(join(folder, "a"), "before");
  function* pieces() {
    yield "one\n";
    throw new TypeError("no more");
  }
  await expect(writeWhole(join(folder, "a"), pieces())).rejects.toBeInstanceOf(WriteError);
  expect(readFileSync(join(folder, "a"), "utf8")).toBe("before");
  expect(readdirSync(folder)).toEqual(["a"]);
});

test("the command line says what it could not write and exits with 4", async () => {
  const log = join(folder, "log.csv");
  writeFileSync(
    log,
    `Time,Pressure (bar)\n${Array.from({ length: 20 }, (_, i) => `2024-05-01 10:00:${10 + i},${4 + i / 100}`).join("\n")}\n`,
  );
  const said: unknown[] = [];
  const before = console.error;
  console.error = (...words) => said.push(words[0]);
  try {
    expect(await main(["analyse", log, "--out", join(folder, "nowhere", "out.txt")])).toBe(4);
  } finally {
    console.error = before;
  }
  expect(said.at(-1)).toBe("out.txt could not be written (there is no such folder). What stood under that name before is untouched.");
});
