import fc from "fast-check";
import { expect, test } from "vitest";
import { readPlainPart } from "../../../../analysis/import/body/plain-part";
import { importLog, type LogFile, NO_CHOICES } from "../../../../analysis/import/import-log";
import { logFile } from "../../../builders/log-file";

/** The same file, once read in one go and once in two parts. */
function twoWays(text: string): { whole: LogFile; parted: LogFile; parts: { rows: number }[] } {
  const bytes = new TextEncoder().encode(text);
  const whole: LogFile = { ...logFile(text), slice: async (from, to) => bytes.slice(from, to) };
  const parts: { rows: number }[] = [];
  const readTail: LogFile["readTail"] = async (from, choices) => {
    const part = await readPlainPart(whole, from, choices);
    if (part !== null) parts.push(part);
    return part;
  };
  return { whole, parted: { ...whole, readTail }, parts };
}

const odd = fc.constantFrom(
  "2024-05-01 00:00:09,oops,1,2",
  "",
  '"2024-05-01 09:00:01","5","6","7"',
  '2024-05-01 09:00:01,"a\n2024-05-01 09:00:02,1,2,3\nb",5,6',
  "Time,A,C,B",
  "# a remark",
  "2024-05-01 09:00:01,,,",
  "2024-05-01 09:00:01,1,2,3,4",
  "5\u00006,7,8,9",
  "end of table",
);
const gap = fc.constantFrom(0, 0, 0, 1, -40, 86_400);

test("a file read in two parts is the file read in one, whatever stands at the edge", async () => {
  let taken = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.nat({ max: 60 }), gap, fc.option(odd)), { minLength: 1, maxLength: 8 }),
      fc.boolean(),
      async (stretches, closed) => {
        let at = Date.UTC(2024, 4, 1) / 1000;
        const lines = ["Time,A,B,C"];
        for (const [rows, leap, strange] of [[20, 0, null] as const, ...stretches]) {
          at += leap;
          if (strange !== null) lines.push(strange);
          for (let i = 0; i < rows; i++, at++)
            lines.push(`${new Date(at * 1000).toISOString().slice(0, 19).replace("T", " ")},${i % 7},${(i % 11) / 4},${-i}`);
        }
        const { whole, parted, parts } = twoWays(lines.join("\n") + (closed ? "\n" : ""));
        const [one, two] = await Promise.all([importLog([whole], NO_CHOICES), importLog([parted], NO_CHOICES)]);
        expect(two).toEqual(one);
        if (parts.some(({ rows }) => rows > 0)) taken++;
      },
    ),
    { numRuns: 100 },
  );
  expect(taken).toBeGreaterThan(40);
});
