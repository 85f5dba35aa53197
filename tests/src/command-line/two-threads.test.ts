import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type PlainPart, readPlainPart } from "../../../analysis/import/body/plain-part";
import { importLog, type LogFile, NO_CHOICES } from "../../../analysis/import/import-log";
import { writeRecord } from "../../../analysis/import/write-record";
import { openLog } from "../../../src/command-line/files";
import type { readTail } from "../../../src/command-line/tail-reader";
import { TOP } from "../../house/source-files";

const PROGRAM = join(TOP, ".ci", "command-line.mjs");
const home = mkdtempSync(join(tmpdir(), "two-threads-"));
let built: { readonly readTail: typeof readTail };

const evenhead = (args: readonly string[], env = {}) =>
  spawnSync(process.execPath, [PROGRAM, ...args], { encoding: "utf8", maxBuffer: 1e9, env: { ...process.env, ...env } });

/** A thread runs what is built: the piece that reads the tail of a large file. */
beforeAll(async () => {
  evenhead(["--help"]);
  const assets = join(TOP, "dist", "command-line", "assets");
  const name = readdirSync(assets).find((one) => one.startsWith("tail-reader"));
  built = await import(pathToFileURL(join(assets, String(name))).href);
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const stamp = (i: number) => new Date(Date.UTC(2026, 2, 1) + i * 1000).toISOString().slice(0, 19).replace("T", " ");
/** A saw-tooth between 3 and 4 bar, a sample a second, and what else the row may hold. */
const row = (i: number, more = "") =>
  `${stamp(i)},${(i % 90 < 20 ? 3 + (i % 90) / 20 : 4 - ((i % 90) - 20) / 70).toFixed(3)},${i % 90 < 20 ? 1 : 0}${more}`;
const HEAD = "Time,Pressure (bar),Pump running";
const plainRows = Array.from({ length: 20_000 }, (_, i) => row(i));
/** Rows with one put in: behind the place where the second thread begins. */
const withOdd = (odd: string, at = 15_000) => [...plainRows.slice(0, at), odd, ...plainRows.slice(at)].join("\n");

const CASES: readonly (readonly [string, string, "utf8" | "utf16le"])[] = [
  ["plain rows", `${plainRows.join("\n")}\n`, "utf8"],
  ["no end of line behind the last row", plainRows.join("\n"), "utf8"],
  ["a row that is none", withOdd("no row at all"), "utf8"],
  ["the headings again", withOdd(HEAD), "utf8"],
  ["cells in quotes", withOdd(`"${stamp(14_999)}","3.5","1"`), "utf8"],
  ["a quote opened before the second thread's place and closed behind it", withOdd(`${stamp(1000)},"3.5`, 1000), "utf8"],
  ["a clock set back", [...plainRows, ...plainRows.slice(10_000)].join("\n"), "utf8"],
  ["lines that end in two characters", plainRows.join("\r\n"), "utf8"],
  ["letters of two bytes are read in one piece", plainRows.join("\n"), "utf16le"],
];

describe("a second thread reads the tail of a file", () => {
  test.each(CASES)("%s", async (name, text, letters) => {
    const path = join(home, `${CASES.findIndex(([own]) => own === name)}.csv`);
    writeFileSync(path, `${letters === "utf8" ? "" : "\uFEFF"}${HEAD}\n${text}`, letters);
    const whole = await openLog(path);
    const parts: (PlainPart | null)[] = [];
    const parted: LogFile = {
      ...whole,
      async readTail(from, choices) {
        const [there, here] = [await built.readTail(path, from, choices), await readPlainPart(whole, from, choices)];
        expect(there, "what comes over from the thread").toEqual(here);
        parts.push(there);
        return there;
      },
    };
    const [one, two] = await Promise.all([importLog([whole], NO_CHOICES), importLog([parted], NO_CHOICES)]);
    expect(two).toEqual(one);
    expect([...writeRecord(two.record)].join("")).toBe([...writeRecord(one.record)].join(""));
    expect(parts.some((part) => part !== null && part.rows > 1000)).toBe(letters === "utf8");
  });

  test("whose file is gone is done without: the first reads on", async () => {
    const path = join(home, "kept.csv");
    writeFileSync(path, `${HEAD}\n${plainRows.join("\n")}\n`);
    const whole = await openLog(path);
    const parted: LogFile = { ...whole, readTail: (from, choices) => built.readTail(join(home, "gone.csv"), from, choices) };
    expect(await importLog([parted], NO_CHOICES)).toEqual(await importLog([whole], NO_CHOICES));
  });

  test.runIf(availableParallelism() > 1)("a log of a hundred megabytes: the command with two threads tells what it tells with one", () => {
    const folder = join(home, "large");
    mkdirSync(folder);
    const log = join(folder, "large.csv");
    const ballast = ["a", "b", "c", "d"].map((_, k) => String(k).repeat(230)).join(",");
    writeFileSync(
      log,
      [`${HEAD},Note a,Note b,Note c,Note d`, ...Array.from({ length: 106_000 }, (_, i) => row(i, `,${ballast}`)), ""].join("\n"),
    );
    const two = evenhead(["analyse", log, "--json"], { NODE_DEBUG: "worker" });
    expect(two.stderr, "a thread was started").toMatch(/tail-reader/);
    // a log of a folder is read on a thread already, which starts none of its own
    const out = join(home, "large-out");
    const one = evenhead(["analyse", "--each", folder, "--out", out], { NODE_DEBUG: "worker" });
    expect(one.status).toBe(0);
    expect(one.stderr).not.toMatch(/tail-reader/);
    const { document } = JSON.parse(readFileSync(join(out, "logs", "large.csv.findings.json"), "utf8"));
    expect(JSON.stringify(JSON.parse(two.stdout))).toBe(JSON.stringify(document));
  });
});
