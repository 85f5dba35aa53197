import { describe, expect, test } from "vitest";
import { sayReadingNote } from "../../../../shared/wording/reading-note";
import { bar, iso, rows, table, told } from "../../../builders/log-rows";

/** How many values are missing in each channel, and the notes; row 7 of 40 is the odd one. */
async function read(head: string, write: (at: string, value: string, i: number) => string) {
  const { record, asked } = await told(
    table(
      head,
      rows(40, 10, (d, i) => write(iso(d), bar(i), i)),
    ),
  );
  return {
    missing: record.channels.map(({ heading, values }) => [heading, values.filter(Number.isNaN).length]),
    notes: record.notes.map((note) => sayReadingNote(note, null)),
    asked,
  };
}

// Bad: the value is not usable; Uncertain: it may be (IEC 62541-8, severity of a status code, from memory)
describe("values that a column of qualities calls bad are left out, and that is said", () => {
  test("one column for all", async () => {
    expect(
      await read(
        "Time,Pressure (bar),Flow (L/min),Quality",
        (t, v, i) => `${t},${v},${i},${i === 7 ? "Bad" : i === 9 ? "Uncertain" : "Good"}`,
      ),
    ).toEqual({
      missing: [
        ["Pressure (bar)", 1],
        ["Flow (L/min)", 1],
      ],
      notes: [
        'One value is marked "Bad" in "Quality" and left out of "Pressure (bar)", first in line 9.',
        'One value is marked "Bad" in "Quality" and left out of "Flow (L/min)", first in line 9.',
      ],
      asked: [],
    });
  });
  test("one behind each, by name or by place", async () => {
    for (const [a, b] of [
      ["Quality", "Quality"],
      ["Pressure quality", "Flow quality"],
    ]) {
      const { missing } = await read(
        `Time,Pressure (bar),${a},Flow (L/min),${b}`,
        (t, v, i) => `${t},${v},Good,${i},${i % 7 === 0 ? "Bad - no contact" : "Good"}`,
      );
      expect(missing).toEqual([
        ["Pressure (bar)", 0],
        ["Flow (L/min)", 6],
      ]);
    }
  });
  test("in numbers", async () => {
    const { missing } = await read("Time,Pressure (bar),Qualität", (t, v, i) => `${t},${v},${i === 7 ? 24 : i === 8 ? 64 : 192}`);
    expect(missing[0]).toEqual(["Pressure (bar)", 1]);
  });
  test("in long form", async () => {
    const { missing, notes } = await read(
      "Time,Name,Value,Quality",
      (t, v, i) => `${t},${i % 2 === 0 ? "Pressure (bar)" : "Flow (L/min)"},${v},${i === 7 ? "Bad" : "Good"}`,
    );
    expect(missing).toEqual([
      ["Pressure (bar)", 0],
      ["Flow (L/min)", 1],
    ]);
    expect(notes).toContain('One value is marked "Bad" in "Quality" and left out of "Value", first in line 9.');
  });
});

test("other words under such headings say nothing of values", async () => {
  for (const [heading, usual, other] of [
    ["Water quality", "clear", "turbid"],
    ["Pump status", "OK", "Fault"],
    ["Quality", "3", "7"],
  ]) {
    const { missing } = await read(`Time,Pressure (bar),${heading}`, (t, v, i) => `${t},${v},${i === 7 ? other : usual}`);
    expect(missing[0]).toEqual(["Pressure (bar)", 0]);
  }
});
