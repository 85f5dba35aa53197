import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { TOP } from "../../house/source-files";

const home = mkdtempSync(join(tmpdir(), "analyse-"));
const file = (name: string) => join(home, name);

beforeAll(() => {
  const rows = Array.from(
    { length: 600 },
    (_, i) => `${new Date(Date.UTC(2026, 2, 1) + i * 1000).toISOString()},${(50 + ((i * 7919) % 13) / 50).toFixed(2)}`,
  );
  writeFileSync(file("good.csv"), ["Time,Pressure (psi)", ...rows, ""].join("\n"));
  writeFileSync(file("doubtful.csv"), "Time,P\n01/02/2026 10:00,3.1\n01/02/2026 10:01,3.2\n01/02/2026 10:02,3.3\n01/02/2026 10:03,3.2\n");
  writeFileSync(file("empty.csv"), "");
  writeFileSync(file("header.csv"), "Time,Pressure (psi)\n");
  writeFileSync(
    file("binary.csv"),
    Uint8Array.from({ length: 4000 }, (_, i) => (i * 7919) % 256),
  );
  writeFileSync(file("no-time.csv"), "Pressure (psi),Time\n50,3.5\n51,4.5\n49,3.5\n50,3.5\n");
  writeFileSync(file("one-column.csv"), "Reading\n50\n51\n49\n");
  writeFileSync(file("site.json"), '{ "setPressure": "52 psi" }');
  writeFileSync(file("wrong-site.json"), '{ "setPressure": "52 gallons" }');
  writeFileSync(file("no-json.json"), "set pressure 52");
});
afterAll(() => rmSync(home, { recursive: true, force: true }));

const analyse = (...args: string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(TOP, ".ci", "command-line.mjs"), "analyse", ...args], {
    encoding: "utf8",
    cwd: home,
  });
  return { status, stdout, stderr };
};

test("the document goes to standard output, whole and alone", () => {
  const { status, stdout } = analyse("good.csv", "--site", "site.json", "--json");
  expect(status).toBe(0);
  expect(JSON.parse(stdout)).toMatchObject({
    format: "evenhead-findings",
    version: 1,
    error: null,
    record: { clock: "absolute", from: "2026-03-01T00:00:00.000Z", rows: { accepted: 600, rejected: 0 } },
    site: { setPressure: { unit: "psi", from: "given" } },
    running: { basis: null, runs: [] },
  });
});

test("without --json a summary to read", () => {
  const { status, stdout } = analyse("good.csv");
  expect(status).toBe(0);
  expect(stdout).toMatch(/^Record\n {2}good\.csv/);
  expect(stdout).toContain("What this log cannot show");
});

test("--record writes the rows as read: line, instant, SI values", () => {
  analyse("good.csv", "--record", "record.csv");
  const [head, first] = readFileSync(file("record.csv"), "utf8").split(/\r?\n/);
  expect(head).toBe("line,instant,Pressure (psi)");
  expect(first).toMatch(/^2,2026-03-01T00:00:00(?:\.000)?Z,344737\.\d+$/); // 50 psi is 344 737.9 Pa, NIST SP 811
});

test("an answer settles a question", () => {
  const asked = JSON.parse(analyse("doubtful.csv", "--json").stdout);
  expect(asked.record.questions.map(({ id }: { id: string }) => id)).toContain("date-order");
  const settled = JSON.parse(analyse("doubtful.csv", "--json", "--answer", "date-order=mdy", "--column", "P=pressure:bar").stdout);
  expect(settled.record.questions.map(({ id }: { id: string }) => id)).not.toContain("date-order");
  expect(settled.record.from).toBe("2026-01-02T10:00:00.000Z");
  expect(settled.record.channels[0]).toMatchObject({ role: "pressure", unit: "bar" });
});

test("an answer to nothing that is asked is refused with what is asked", () => {
  const { status, stderr } = analyse("doubtful.csv", "--json", "--answer", "date-ordre=mdy");
  expect(status).toBe(3);
  expect(stderr).toMatch(/Nothing asks "date-ordre".*"date-order"/);
});

test("the span of a signal and what it stands for are one answer", () => {
  writeFileSync(file("volts.csv"), `Time,P=1 (V)\n${[0.5, 2.5, 4.5, 2.5].map((v, i) => `2026-03-01T00:00:0${i}Z,${v}`).join("\n")}\n`);
  const read = (answer: string) => JSON.parse(analyse("volts.csv", "--json", "--answer", answer, "--record", "volts-record.csv").stdout);
  expect(read("range:P=1 (V)=0.5..4.5 V = 0..10 bar").record.channels[0]).toMatchObject({ role: "pressure", unit: "bar" });
  const values = readFileSync(file("volts-record.csv"), "utf8")
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line) => Number(line.split(",")[2]));
  expect(values).toEqual([0, 5e5, 1e6, 5e5]); // a tenth of the span is 1 bar, 100 kPa
});

test("each file by itself: one line each, a bad one costs only itself", () => {
  const { status, stdout } = analyse("good.csv", "empty.csv", "good.csv", "--each");
  const lines = stdout
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(status).toBe(3);
  expect(lines.map(({ error }) => error === null)).toEqual([true, false, true]);
});

describe("what cannot be read as a log: exit 3, a document with its error, a sentence that says what to do", () => {
  test.each([
    ["empty.csv", "empty-file"],
    ["header.csv", "header-only"],
    ["binary.csv", "not-text"],
    ["no-time.csv", "no-time-column"],
    ["one-column.csv", "one-column"],
    ["missing.csv", "cannot-open"],
  ])("%s", (name, kind) => {
    const { status, stdout, stderr } = analyse(name, "--json");
    expect(status).toBe(3);
    expect(JSON.parse(stdout)).toMatchObject({
      format: "evenhead-findings",
      error: { kind, file: name },
      causes: [],
      running: { basis: null, runs: [] },
    });
    expect(stderr).toContain(name);
    expect(stderr.trim()).toMatch(/\.$/);
  });
  test.each([
    ["wrong-site.json", /52 psi/],
    ["no-json.json", /not valid JSON/],
    ["missing.json", /no such file/],
  ])("site facts in %s", (name, sentence) => {
    const { status, stderr } = analyse("good.csv", "--site", name);
    expect(status).toBe(3);
    expect(stderr).toMatch(sentence);
  });
});

describe("wrong usage: exit 2, nothing on standard output", () => {
  test.each([
    ["no file", []],
    ["an unknown option", ["good.csv", "--jsn"]],
    ["an answer without a value", ["good.csv", "--answer", "date-order"]],
    ["a column of no role", ["good.csv", "--column", "P=presure:bar"]],
    ["a unit system of no name", ["good.csv", "--units", "nautical"]],
    ["one record file for many", ["good.csv", "--each", "--record", "x.csv"]],
  ])("%s", (_, args) => {
    const { status, stdout, stderr } = analyse(...args);
    expect(status).toBe(2);
    expect(stdout).toBe("");
    expect(stderr.trim()).not.toBe("");
  });
});
