import { describe, expect, test } from "vitest";
import { sayReadingNote } from "../../../../shared/wording/reading-note";
import { bar, iso, rows, table, told } from "../../../builders/log-rows";

const log = (n = 40) =>
  table(
    "Time,Pressure (bar),Flow (L/min)",
    rows(n, 10, (d, i) => `${iso(d)},${bar(i)},${20 + (i % 5)}`),
  );

/** Rows taken and rejected, and what the notes say. */
async function left(text: string) {
  const { rows: counted, record } = await told(text);
  return { accepted: counted.accepted, rejected: counted.rejected, notes: record.notes.map((note) => sayReadingNote(note, null)) };
}

describe("a table of another kind is told as one, with its first line and its rows", () => {
  const alarms = "Alarm log\nNo.,Alarm,Since,State\n1,Low pressure,08:10:11,seen\n2,Dry run,08:20:30,open\n";
  const said = "Another table of 2 rows begins in line 43 (No., Alarm, Since, State); it was left out.";
  test("below the log", async () => expect(await left(log() + alarms)).toEqual({ accepted: 40, rejected: 0, notes: [said] }));
  test("between its rows", async () => {
    const more = rows(10, 10, (d, i) => `${iso(d)},${bar(i)},${20 + (i % 5)}`, Date.UTC(2024, 4, 6, 11) / 1000).join("\n");
    expect(await left(`${log()}${alarms}${more}\n`)).toMatchObject({ accepted: 50, rejected: 0, notes: [said] });
  });
  test("with more rows than a footer can have", async () => {
    const long = Array.from({ length: 500 }, (_, i) => `${i},Low pressure,08:10:11,seen`).join("\n");
    const { rejected, notes } = await left(`${log(1500)}No.,Alarm,Since,State\n${long}\n`);
    expect({ rejected, notes }).toEqual({
      rejected: 0,
      notes: ["Another table of 500 rows begins in line 1502 (No., Alarm, Since, State); it was left out."],
    });
  });
  test("rows with an instant that are broken otherwise stay rejected", async () => {
    const broken = "a,b,c\n2024-05-06 12:00:00,x1,x2\n2024-05-06 12:00:10,x1,2x\n";
    expect(await left(log() + broken)).toMatchObject({ accepted: 40, rejected: 3 });
  });
});

test("rows that end early, NUL bytes and a file that ends behind a delimiter are said", async () => {
  const lines = log().split("\n");
  lines[5] = lines[5].split(",").slice(0, 2).join(",");
  lines[8] = `${lines[8]}\0\0\0`;
  const { accepted, notes } = await left(`${lines.join("\n")}2024-05-06 11:00:00,3.2,`);
  expect({ accepted, notes }).toEqual({
    accepted: 41,
    notes: [
      "One row ends before the last column, first in line 6; what is not there counts as missing.",
      "3 NUL bytes were passed over, first in line 9.",
      'The file ends in line 42 behind a delimiter, without a line end: "Flow (L/min)" of that row is not known.',
    ],
  });
});
