import fc from "fast-check";
import { expect, test } from "vitest";
import { importLog } from "../../../analysis/import/import-log";
import { timesOf } from "../../../shared/record/sampling";
import { logFile } from "../../builders/log-file";

type Way = {
  readonly delimiter: string;
  readonly decimal: "." | ",";
  readonly lineEnd: string;
  readonly quoted: boolean;
  readonly mark: boolean;
  readonly preamble: number;
  readonly units: "heading" | "row";
  readonly decimals: number;
  readonly missing: string;
  readonly chunk: number;
  readonly closed: boolean;
};

const way: fc.Arbitrary<Way> = fc
  .record({
    delimiter: fc.constantFrom(",", ";", "\t", "|"),
    decimal: fc.constantFrom(".", ",") as fc.Arbitrary<"." | ",">,
    lineEnd: fc.constantFrom("\n", "\r\n", "\r"),
    quoted: fc.boolean(),
    mark: fc.boolean(),
    preamble: fc.integer({ min: 0, max: 12 }),
    units: fc.constantFrom("heading", "row") as fc.Arbitrary<"heading" | "row">,
    decimals: fc.constantFrom(1, 2, 4),
    missing: fc.constantFrom("", "NaN", "---", "#N/A"),
    chunk: fc.integer({ min: 1, max: 500 }),
    closed: fc.boolean(),
  })
  .filter(({ delimiter, decimal, quoted }) => quoted || delimiter !== "," || decimal === ".");

const column = fc.constantFrom(["Pressure", "bar", 1e5], ["Flow", "L/min", 1e-3 / 60], ["Temperature", "°C", 1]) as fc.Arbitrary<
  [string, string, number]
>;
/** Digits that loggers use as the mark of a missing value (999, 9999, 32767): far from all others they are no reading, and are left out here. */
const isMark = (value: number) => /^(?:9{3,5}|8{3,4}|[67]999|3276[67]|6553[45])$/.test(String(value).replace(/0+$/, ""));
const reading = fc.integer({ min: 10, max: 99_999 }).filter((value) => !isMark(value));
const readings = fc.array(fc.option(reading, { freq: 12 }), { minLength: 8, maxLength: 60 });

function write(columns: readonly [string, string, number][], table: readonly (readonly (number | null)[])[], how: Way): string {
  const cell = (text: string) => (how.quoted ? `"${text}"` : text);
  const line = (cells: readonly string[]) => cells.map(cell).join(how.delimiter);
  const names = columns.map(([name, unit], i) => `${name} ${i + 1}${how.units === "heading" ? ` (${unit})` : ""}`);
  const number = (value: number | null) =>
    value === null ? how.missing : (value / 10 ** how.decimals).toFixed(how.decimals).replace(".", how.decimal);
  const lines = [
    ...Array.from({ length: how.preamble }, (_, i) => `Setting ${i}: ${i % 3 === 0 ? `${i}.${i}` : "east wing"}`),
    line(["Time", ...names]),
    ...(how.units === "row" ? [line(["", ...columns.map(([, unit]) => unit)])] : []),
    ...table[0].map((_, row) =>
      line([new Date(Date.UTC(2024, 4, 1) + row * 5000).toISOString().slice(0, 19), ...table.map((values) => number(values[row]))]),
    ),
  ];
  return (how.mark ? "\ufeff" : "") + lines.join(how.lineEnd) + (how.closed ? how.lineEnd : "");
}

test("any table in any dialect is read back equal", async () => {
  const tables = fc.tuple(fc.array(column, { minLength: 1, maxLength: 4 }), readings, fc.integer({ min: 1, max: 4 }));
  await fc.assert(
    fc.asyncProperty(tables, way, async ([columns, first, turn], how) => {
      const values = columns.map((_, c) => first.map((_, i) => first[(i * turn + c) % first.length]));
      fc.pre(values.every((list) => list.filter((value) => value !== null).length > list.length / 2));
      const { record } = await importLog([logFile(write(columns, values, how), "log.csv", how.chunk)]);
      expect(record.rows).toEqual({ accepted: first.length, rejected: 0, duplicate: 0, reordered: 0 });
      expect(record.channels.map(({ heading }) => heading.replace(/ \(.*/, ""))).toEqual(columns.map(([name], i) => `${name} ${i + 1}`));
      record.channels.forEach((channel, c) => {
        const [name, , factor] = columns[c];
        const offset = name === "Temperature" ? 273.15 : 0;
        const expected = values[c].map((value) =>
          value === null ? Number.NaN : Math.fround((value / 10 ** how.decimals) * factor + offset),
        );
        expect(Array.from(channel.values)).toEqual(expected);
      });
      expect(Array.from(timesOf(record.channels[0].sampling))).toEqual(first.map((_, i) => i * 5));
    }),
    { numRuns: 250 },
  );
});
