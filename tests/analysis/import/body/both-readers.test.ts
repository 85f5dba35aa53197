import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readBody } from "../../../../analysis/import/body/read-body";
import { NO_CHOICES } from "../../../../analysis/import/import-log";
import { makePlan } from "../../../../analysis/import/make-plan";
import { surveyFile } from "../../../../analysis/import/survey";
import { logFile } from "../../../builders/log-file";

/** Reads a text by bytes and as text; what each made of it, comparable. */
async function bothWays(text: string, chunk: number) {
  const file = logFile(text, "log.csv", chunk);
  const survey = await surveyFile(file);
  const { plan } = makePlan(file.name, survey, NO_CHOICES);
  const [bytes, asText] = [await readBody(file, survey, plan, () => {}), await readBody(file, survey, plan, () => {}, "text")];
  const shown = ({ store, log }: typeof bytes) => ({
    count: store.count,
    times: Array.from(store.times.all()),
    values: store.values.map((column) => Array.from(column.subarray(0, store.count))),
    lines: Array.from({ length: store.count }, (_, i) => store.lines.at(i)),
    rejected: log.rejected,
    rejects: log.rejects,
    notes: log.notes(),
  });
  return { bytes: shown(bytes), text: shown(asText) };
}

const odd = fc.constantFrom(
  "",
  "NaN",
  "---",
  "1e3",
  "-0.5E-2",
  "+4.25",
  "52.3 psi",
  "oops",
  '"7.5"',
  '"1""2"',
  " 8 ",
  "-",
  ".5",
  "5.",
  "1234567890123456",
  "0.1234567890123456789",
  "ON",
  "#N/A",
  "12-5",
  "\u00b0",
  '"a,b"',
  "5\u00003",
  "\u0000",
  "1,234.5",
);
const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((v) => String(Number(v.toFixed(3))));
const cell = fc.oneof({ weight: 12, arbitrary: number }, { weight: 1, arbitrary: odd });
const pad = (n: number) => String(n).padStart(2, "0");
const stamp = fc.nat({ max: 86_399 }).map((s) => `2024-05-01 ${pad(Math.floor(s / 3600))}:${pad(Math.floor(s / 60) % 60)}:${pad(s % 60)}`);
const time = fc.oneof(
  { weight: 15, arbitrary: stamp },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      "",
      "2024-02-30 00:00:00",
      "Time",
      "2024-05-01 24:00:00",
      "2024-05-01 01:02:03.5",
      "# note",
      '"2024-05-01 00:00:01"',
      "2024-05-01 0\u00000:00:01",
    ),
  },
);
const row = fc.tuple(time, fc.array(cell, { minLength: 1, maxLength: 5 }));
const lineEnd = fc.constantFrom("\n", "\r\n");

describe("the byte reader and the text path", () => {
  test.each([",", ";", "\t"])("make the same rows of any table delimited by %j", async (delimiter) => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(row, { maxLength: 40 }),
        lineEnd,
        fc.integer({ min: 1, max: 200 }),
        fc.boolean(),
        async (rows, end, chunk, closed) => {
          const plain = Array.from({ length: 12 }, (_, i) => [`2024-05-01 00:00:${pad(i)}`, "1.5", "2.5", "3.5"].join(delimiter));
          const mixed = rows.map(([t, cells]) => [t, ...cells].join(delimiter));
          const text = [["Time", "A", "B", "C"].join(delimiter), ...plain, ...mixed].join(end) + (closed ? end : "");
          const { bytes, text: asText } = await bothWays(text, chunk);
          expect(bytes).toEqual(asText);
        },
      ),
      { numRuns: 300 },
    );
  });
});

const FORMS: readonly ((at: Date) => string)[] = [
  (at) => at.toISOString().slice(0, 19),
  (at) => at.toISOString(),
  (at) => `${pad(at.getUTCDate())}/${pad(at.getUTCMonth() + 1)}/${at.getUTCFullYear()} ${at.toISOString().slice(11, 19)}`,
  (at) =>
    `${at.getUTCMonth() + 1}/${at.getUTCDate()}/${at.getUTCFullYear()} ${at.getUTCHours() % 12 || 12}:${pad(at.getUTCMinutes())}:${pad(at.getUTCSeconds())} ${at.getUTCHours() < 12 ? "AM" : "PM"}`,
  (at) => at.toISOString().slice(0, 16).replace("T", " "),
  (at) => `${at.toISOString().slice(0, 10)}",${at.toISOString().slice(11, 19)}`.replace('"', ""),
  (at) => String(at.getTime() / 1000),
];

test("a clock that ticks, in any form, with leaps and rows out of form between, is read alike by both", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...FORMS),
      fc.constantFrom(0.5, 1, 7, 60, 900),
      fc.array(fc.tuple(fc.nat({ max: 200 }), fc.constantFrom(0, 1, -30, 3600, 86_400), fc.option(cell, { freq: 3 })), {
        minLength: 1,
        maxLength: 8,
      }),
      fc.integer({ min: 50, max: 3000 }),
      fc.nat({ max: 2 }),
      async (write, step, parts, chunk, place) => {
        let at = Date.UTC(2024, 4, 30, 22, 58, 0);
        const lines: string[] = [];
        // the stamp stands before the values, between them or behind them
        const row = (time: string, a: string, b: string) => [a, b].toSpliced(place, 0, time).join(",");
        for (const [rows, leap, odd] of [[20, 0, null] as const, ...parts]) {
          if (odd !== null) lines.push(row(write(new Date(at)), odd, "1.5"));
          at += leap * 1000;
          for (let i = 0; i < rows; i++, at += step * 1000)
            lines.push(row(write(new Date(at)), String((i % 17) / 4), i % 5 === 0 ? "" : String(-i)));
        }
        const time = lines[0].split(",").length > 3 ? "Date,Time" : "Time";
        const { bytes, text } = await bothWays(`${row(time, "A", "B")}\n${lines.join("\n")}\n`, chunk);
        expect(bytes).toEqual(text);
      },
    ),
    { numRuns: 150 },
  );
});

/** IEEE 754 round to nearest: an integer below 2^53 over an exact power of ten rounds once, so it must equal what Number() makes of the text. */
test("numbers are what Number() makes of them, to the last bit", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n }), fc.nat({ max: 15 })), { minLength: 1, maxLength: 60 }),
      async (numbers) => {
        const written = numbers.map(([digits, decimals]) => {
          const text = String(digits < 0n ? -digits : digits).padStart(decimals + 1, "0");
          return `${digits < 0n ? "-" : ""}${text.slice(0, text.length - decimals)}${decimals > 0 ? "." : ""}${text.slice(text.length - decimals)}`;
        });
        const lines = ["99999999.5", ...written].map((value, i) => `${i},${value}`);
        const { bytes } = await bothWays(`Elapsed (s),Count\n${lines.join("\n")}\n`, 97);
        expect(bytes.values[0].slice(1)).toEqual(written.map(Number));
      },
    ),
    { numRuns: 200 },
  );
});
