import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { DIALECTS } from "../../../analysis/import/dialects";
import { importLog, type LogFile } from "../../../analysis/import/import-log";
import { writeInstant } from "../../../shared/record/clock";
import { timeAt } from "../../../shared/record/sampling";
import { CLOCK_DOUBT_SAMPLES } from "../../builders/clock-doubt-samples";
import { CLOCK_SAMPLES } from "../../builders/clock-samples";
import type { DialectSample } from "../../builders/dialect-readings";
import { DIALECT_SAMPLES } from "../../builders/dialect-samples";
import { logFile } from "../../builders/log-file";
import { MEANING_SAMPLES } from "../../builders/meaning-samples";
import { PARTED_SAMPLES } from "../../builders/parted-samples";
import { SPREAD_SAMPLES } from "../../builders/spread-samples";

const TOP = join(import.meta.dirname, "..", "..", "..");
const FOLDER = join(TOP, "sample-data", "dialects");
const GOLDEN = join(TOP, "tests", "golden", "dialects.json");
const TABLE = join(FOLDER, "README.md");

const SAMPLES: readonly DialectSample[] = [
  ...DIALECT_SAMPLES,
  ...CLOCK_SAMPLES,
  ...CLOCK_DOUBT_SAMPLES,
  ...MEANING_SAMPLES,
  ...SPREAD_SAMPLES,
  ...PARTED_SAMPLES,
];

/** `RENEW=1 npx vitest run ...` writes samples and summaries anew; read the difference before it is kept. */
const renew = process.env.RENEW === "1";
const read = (file: LogFile) => importLog([file]);
const rounded = (value: number) => Number(value.toPrecision(6));

async function summary({ file, bytes }: DialectSample) {
  const { record, layouts } = await read(logFile(bytes, file));
  const [{ dialect, encoding, delimiter, decimal, thousands }] = layouts;
  const { accepted, rejected, duplicate, reordered } = record.rows;
  return {
    dialect,
    text: `${encoding}, ${JSON.stringify(delimiter)}, decimal ${decimal}${thousands === null ? "" : `, thousands ${JSON.stringify(thousands)}`}`,
    rows: `${accepted} accepted, ${rejected} rejected, ${duplicate} duplicate, ${reordered} reordered`,
    channels: record.channels.map(
      (c) =>
        `${c.heading}: ${c.role}, ${c.unitInFile}, ${rounded(c.values[0])} .. ${rounded(c.values[c.values.length - 1])} SI, ${c.sampling.kind}`,
    ),
    faults: record.faults.map(({ kind }) => kind),
  };
}

test("every dialect has a sample named after it that it recognises", async () => {
  for (const { id } of DIALECTS) {
    const found = SAMPLES.find(({ file }) => file.replace(/\.\w+$/, "") === id);
    expect(found, id).toBeDefined();
    expect((await summary(found!)).dialect).toBe(id);
  }
});

test("the files in sample-data are those of the builder", () => {
  for (const { file, bytes } of SAMPLES) {
    if (renew) writeFileSync(join(FOLDER, file), bytes);
    expect(Uint8Array.from(readFileSync(join(FOLDER, file))), file).toEqual(bytes);
  }
});

describe("what is known of a sample comes out of it", () => {
  test.each(SAMPLES.map((sample) => [sample.file, sample] as const))("%s", async (_, sample) => {
    const { record } = await read(logFile(sample.bytes, sample.file));
    expect(record.channels.map(({ heading }) => heading)).toEqual(sample.headings);
    record.channels.forEach((channel, c) => {
      expect(channel.values.length).toBe(sample.values[c].length);
      // A Float32 keeps 24 bits: half a unit in the last place is 6e-8 of the value (IEEE 754).
      sample.values[c].forEach((value, i) => {
        if (value === null) expect(channel.values[i], `${channel.heading} ${i}`).toBeNaN();
        else expect(Math.abs(channel.values[i] - value), `${channel.heading} ${i}`).toBeLessThanOrEqual(Math.abs(value) * 1.3e-7 + 1e-12);
      });
    });
    expect(record.rows.accepted).toBe(sample.rows);
    expect(record.rejects.map(({ row }) => row)).toEqual(sample.rejects);
    expect(writeInstant(record.clock, timeAt(record.origins[0].sampling, 0))).toBe(sample.firstInstant);
    const { lines } = record.origins[0];
    expect(lines instanceof Uint32Array ? lines[0] : lines.first).toBe(sample.firstLine);
    expect(record.questions.map(({ id }) => id).sort()).toEqual([...sample.questions].sort());
  });
});

test("golden summaries stand", async () => {
  const all: Record<string, unknown> = {};
  for (const sample of SAMPLES) all[sample.file] = await summary(sample);
  if (renew) writeFileSync(GOLDEN, `${JSON.stringify(all, null, 1)}\n`);
  expect(all).toEqual(JSON.parse(readFileSync(GOLDEN, "utf8")));
});

describe("a sample is the same record", () => {
  const core = async (file: LogFile) => {
    const { record } = await read(file);
    const { channels, origins, rows, duration, clock } = record;
    return {
      channels,
      rows,
      duration,
      clock,
      lines: origins.map(({ lines }) => lines),
      rejects: record.rejects.map(({ row, why }) => [row, why]),
    };
  };
  test("under another name and in chunks of 13 bytes", async () => {
    for (const { file, bytes } of SAMPLES) expect(await core(logFile(bytes, "x.dat", 13)), file).toEqual(await core(logFile(bytes, file)));
  });
  test("as UTF-16", async () => {
    for (const { file, bytes } of SAMPLES.filter((sample) => !/utf-16|nul-|enormous|code-page/.test(sample.file))) {
      const text = new TextDecoder(file.startsWith("windows") ? "windows-1252" : "utf-8").decode(bytes);
      const wide = Uint8Array.from([0xff, 0xfe, ...[...text].flatMap((letter) => [letter.charCodeAt(0) & 255, letter.charCodeAt(0) >> 8])]);
      expect(await core(logFile(wide, file)), file).toEqual(await core(logFile(bytes, file)));
    }
  });
});

/** One line a sample for people: what is difficult, whether all that is known came out, and what was asked. */
async function tableLine(sample: DialectSample): Promise<string> {
  const { record, layouts } = await read(logFile(sample.bytes, sample.file));
  const value = (c: number, i: number) => record.channels[c]?.values[i] ?? Number.NaN;
  const near = (got: number, known: number | null) =>
    known === null ? Number.isNaN(got) : Math.abs(got - known) <= Math.abs(known) * 1.3e-7 + 1e-12;
  const asked = record.questions.map(({ id }) => id).sort();
  const checks = {
    headings: record.channels.map(({ heading }) => heading).join("\t") === sample.headings.join("\t"),
    values: sample.values.every((list, c) => list.every((known, i) => near(value(c, i), known))),
    rows: record.rows.accepted === sample.rows && record.rejects.map(({ row }) => row).join() === sample.rejects.join(),
    instants: writeInstant(record.clock, timeAt(record.origins[0].sampling, 0)) === sample.firstInstant,
    questions: asked.join("\t") === [...sample.questions].sort().join("\t"),
  };
  const wrong = Object.entries(checks).flatMap(([what, good]) => (good ? [] : [what]));
  const cell = (text: string) => text.replaceAll("|", "\\|");
  const result = wrong.length === 0 ? "pass" : `FAIL: ${wrong.join(", ")}`;
  return `| \`${sample.file}\` | ${cell(sample.about)} | ${layouts[0].dialect} | ${result} | ${cell(asked.join(", ")) || "nothing"} |`;
}

test("the table of dialects beside the samples says what is true, and every line of it passes", async () => {
  const lines = [];
  for (const sample of SAMPLES) lines.push(await tableLine(sample));
  const passed = lines.filter((line) => line.includes("| pass |")).length;
  const text = [
    "# Dialects",
    "",
    "Written by `tests/analysis/import/dialect-samples.test.ts` from the samples themselves: headings, SI values, rows, first instant and questions of each",
    `are compared with what is known of it. ${passed} of ${lines.length} pass.`,
    "",
    "| sample | what is difficult | read as | result | asked |",
    "| --- | --- | --- | --- | --- |",
    ...lines,
    "",
  ].join("\n");
  if (renew) writeFileSync(TABLE, text);
  expect(readFileSync(TABLE, "utf8")).toBe(text);
  expect(passed).toBe(lines.length);
});
