import { spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parquetMetadata, parquetReadObjects } from "hyparquet";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TOP } from "../../house/source-files";

const PROGRAM = join(TOP, ".ci", "command-line.mjs");
const home = mkdtempSync(join(tmpdir(), "bulk-"));
const logs = join(home, "logs");
const LOGS = 24;

/** A saw-tooth between 3 and 4 bar, one sample a second; enough rows that a run over all logs can be cut in the middle. */
function logText(period: number): string {
  const rows = Array.from({ length: 4000 }, (_, i) => {
    const phase = (i % period) / period;
    const pressure = phase < 0.25 ? 3 + phase * 4 : 4 - (phase - 0.25) / 0.75;
    return `${new Date(Date.UTC(2026, 2, 1) + i * 1000).toISOString()},${pressure.toFixed(3)},${phase < 0.25 ? 1 : 0}`;
  });
  return ["Time,Pressure (bar),Pump running", ...rows, ""].join("\n");
}

beforeAll(() => {
  mkdirSync(join(logs, "north"), { recursive: true });
  for (let i = 0; i < LOGS; i++) writeFileSync(join(logs, i % 2 ? "north" : ".", `log-${String(i).padStart(2, "0")}.csv`), logText(80 + i));
  writeFileSync(join(logs, "bad.csv"), "");
  writeFileSync(join(logs, "north", "site.json"), '{ "setPressure": "3.5 bar" }');
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const bulk = (out: string) => spawnSync(process.execPath, [PROGRAM, "analyse", "--each", logs, "--out", out], { encoding: "utf8" });

function parquetOf(out: string): ArrayBuffer {
  const bytes = readFileSync(join(out, "findings.parquet"));
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer;
}

describe("a folder of logs", () => {
  test("one bad log never stops the rest, and the exit code tells", () => {
    const out = join(home, "whole");
    const run = bulk(out);
    expect(run.status).toBe(3);
    expect(run.stdout).toMatch(/25 logs, \d+ over a limit, 1 not read\./);
    const lines = readFileSync(join(out, "findings.jsonl"), "utf8").trim().split("\n");
    expect(lines).toHaveLength(LOGS + 1);
    expect(lines.filter((line) => JSON.parse(line).error !== null)).toHaveLength(1);
    // Each line tells which log it is of, and carries a small picture for the round.
    const told = lines.map((line) => JSON.parse(line));
    expect(new Set(told.map(({ log }) => log)).size).toBe(LOGS + 1);
    expect(told.find(({ log }) => log === "north/log-01.csv").trace.channels[0]).toMatchObject({ role: "pressure" });
  });

  test("site facts beside a log are its own", () => {
    const kept = JSON.parse(readFileSync(join(home, "whole", "logs", "north", "log-01.csv.findings.json"), "utf8"));
    expect(kept.document.site.setPressure).toMatchObject({ value: 350000, from: "given" });
  });

  test("Parquet opens in another library with the same numbers as the lines", async () => {
    const out = join(home, "whole");
    const rows = await parquetReadObjects({ file: parquetOf(out) });
    const documents = readFileSync(join(out, "findings.jsonl"), "utf8")
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(rows.map((row) => row.starts)).toEqual(documents.map((d) => d.cycling.starts));
    expect(rows.map((row) => row.sha256)).toEqual(documents.map((d) => d.record.files[0]?.sha256 ?? null));
  });

  test("interrupted and called again, it ends as if it had never stopped, and redoes nothing", async () => {
    const out = join(home, "cut");
    const child = spawn(process.execPath, [PROGRAM, "analyse", "--each", logs, "--out", out], { stdio: ["ignore", "ignore", "pipe"] });
    let seen = "";
    await new Promise<void>((resolve) => {
      child.stderr.on("data", (data: Buffer) => {
        seen += data.toString();
        if (seen.split("\n").length > 6) child.kill("SIGKILL");
      });
      child.once("exit", () => resolve());
    });
    expect(existsSync(join(out, "findings.jsonl"))).toBe(false);
    writeFileSync(join(out, "logs", "log-22.csv.findings.json.0123abcd.part"), '{"stamp":'); // as a kill in the middle of writing leaves it
    const again = bulk(out);
    expect(readdirSync(join(out, "logs")).filter((name) => name.endsWith(".part"))).toEqual([]);
    expect(again.stderr.match(/done before/g)?.length ?? 0).toBeGreaterThanOrEqual(5);
    for (const table of ["findings.jsonl", "findings.parquet", "columns.txt"])
      expect(readFileSync(join(out, table)).equals(readFileSync(join(home, "whole", table))), table).toBe(true);
  });

  test("the list of columns tells every column of the Parquet file, with its type", async () => {
    const { schema } = parquetMetadata(parquetOf(join(home, "whole")));
    const told = readFileSync(join(home, "whole", "columns.txt"), "utf8")
      .trim()
      .split("\n")
      .map((line) => line.split("\t"));
    expect(told.map(([name]) => name)).toEqual(schema.slice(1).map(({ name }) => name));
    expect(told.every(([, type, about]) => ["string", "double", "boolean"].includes(type) && about.length > 5)).toBe(true);
  });

  test("limits of the company hold for the whole folder, and others make the findings anew", () => {
    const out = join(home, "limits");
    cpSync(join(home, "whole"), out, { recursive: true });
    const limits = join(home, "limits.json");
    writeFileSync(limits, '{ "format": "evenhead-limits", "version": 1, "limits": { "startsPerHour": "1" } }');
    const run = spawnSync(process.execPath, [PROGRAM, "analyse", "--each", logs, "--out", out, "--limits", limits], { encoding: "utf8" });
    expect(run.stderr).not.toContain("done before");
    const kept = JSON.parse(readFileSync(join(out, "logs", "log-02.csv.findings.json"), "utf8"));
    expect(kept.document.site.limits.startsPerHour).toMatchObject({ value: 1, from: "company" });
  });

  test("a folder of nasty names, links and files that are no logs: each has its line, and a second run into the same folder finds no more logs", async () => {
    const nasty = join(home, "nasty");
    mkdirSync(join(nasty, "folder.csv"), { recursive: true });
    const names = [
      "=cmd.csv",
      "<img src=x onerror=alert(1)>.csv",
      "__proto__.csv",
      "new\nline.csv",
      "two words, comma.csv",
      "UPPER.CSV",
      "\u202ertl.csv",
    ];
    for (const name of names) writeFileSync(join(nasty, name), logText(90));
    writeFileSync(join(nasty, "picture.csv"), Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3]));
    writeFileSync(join(nasty, "broken.zip"), "PK\u0003\u0004no zip");
    mkdirSync(join(nasty, "badsite"));
    writeFileSync(join(nasty, "badsite", "log.csv"), logText(90));
    writeFileSync(join(nasty, "badsite", "site.json"), "{ broken");
    symlinkSync("UPPER.CSV", join(nasty, "link.csv"));
    symlinkSync("nowhere", join(nasty, "dangling.csv"));
    symlinkSync(".", join(nasty, "loop"));
    const run = () => spawnSync(process.execPath, [PROGRAM, "analyse", "--each", nasty, "--out", nasty], { encoding: "utf8" });
    const first = run();
    expect(first.status).toBe(3);
    expect(first.stdout).toMatch(/12 logs, \d+ over a limit, 4 not read\./);
    expect(first.stderr.trim().split("\n")).toHaveLength(12);
    const lines = readFileSync(join(nasty, "findings.jsonl"), "utf8").trim().split("\n");
    const read = lines.map((line) => JSON.parse(line));
    expect(read.filter(({ error }) => error === null).map(({ log }) => log)).toEqual(expect.arrayContaining([...names, "link.csv"]));
    expect(read.filter(({ error }) => error !== null).map(({ log }) => log)).toEqual([
      join("badsite", "log.csv"),
      "broken.zip",
      "dangling.csv",
      "picture.csv",
    ]);
    // In Parquet a name is a name: another library reads it back as it stands on the disk.
    const rows = await parquetReadObjects({ file: parquetOf(nasty) });
    expect(rows.map(({ log, error }) => [log, error])).toEqual(read.map(({ log, error }) => [log, error?.message ?? null]));
    const again = run();
    expect(again.stdout).toBe(first.stdout);
    // What could not be opened is tried again, the rest is not.
    expect(again.stderr.match(/done before/g)).toHaveLength(11);
  });

  test("an answer holds for every log of the folder, and another makes the findings anew", () => {
    const dated = join(home, "dated");
    mkdirSync(dated, { recursive: true });
    const text = logText(90).replaceAll("2026-03-01T", "01/03/2026 ").replaceAll("Z,", ",").replaceAll(".000,", ",");
    for (const name of ["a.csv", "b.csv"]) writeFileSync(join(dated, name), text);
    const run = (order: string) =>
      spawnSync(
        process.execPath,
        [PROGRAM, "analyse", "--each", dated, "--out", join(home, "dated-out"), "--answer", `date-order=${order}`],
        {
          encoding: "utf8",
        },
      );
    const months = () =>
      readFileSync(join(home, "dated-out", "findings.jsonl"), "utf8")
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line).record.from.slice(0, 7));
    expect(run("dmy").status).toBe(0);
    expect(months()).toEqual(["2026-03", "2026-03"]);
    expect(run("mdy").stderr).not.toContain("done before");
    expect(months()).toEqual(["2026-01", "2026-01"]);
  });

  test("a changed log is done again, a damaged result too", () => {
    const out = join(home, "changed");
    cpSync(join(home, "whole"), out, { recursive: true });
    writeFileSync(join(logs, "log-00.csv"), logText(333));
    writeFileSync(join(out, "logs", "log-02.csv.findings.json"), '{"stamp":');
    expect(bulk(out).stderr.match(/done before/g)).toHaveLength(LOGS + 1 - 2);
    expect(readdirSync(join(out, "logs")).filter((name) => name.endsWith(".part"))).toEqual([]);
  });
});
