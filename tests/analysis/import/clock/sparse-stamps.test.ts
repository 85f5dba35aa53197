import { describe, expect, test } from "vitest";
import { sayReadingNote } from "../../../../shared/wording/reading-note";
import { bar, hms, iso, rows, table, told } from "../../../builders/log-rows";

const log = (head: string, write: (d: Date, i: number) => string, step = 10) => table(head, rows(60, step, write));
const A = "2024-05-06T10:00:00Z";
const B = "2024-05-06T10:09:50Z";

describe("a stamp on every sixth row only", () => {
  test("is carried on evenly, and that is said", async () => {
    const {
      from,
      to,
      rows: counted,
      asked,
      record,
    } = await told(log("Time,Pressure (bar)", (d, i) => `${i % 6 === 0 ? iso(d) : ""},${bar(i)}`));
    expect({ from, to, counted: counted.accepted, asked, notes: record.notes.map((note) => sayReadingNote(note, null)) }).toEqual({
      from: A,
      to: B,
      counted: 60,
      asked: [],
      notes: ["Only 10 of 60 rows carry a stamp; the others are spread evenly from stamp to stamp, a row every 10 s."],
    });
  });
  test("in two columns", async () => {
    const write = (d: Date, i: number) => `${i % 6 === 0 ? iso(d).replace("T", ",") : ","},${bar(i)}`;
    expect(await told(log("Date,Time,Pressure (bar)", write))).toMatchObject({ from: A, to: B, asked: [] });
  });
  test("is not carried where the stamps show no one step", async () => {
    const write = (d: Date, i: number) => `${i % 6 === 0 ? iso(new Date(d.getTime() + 1000 * (i * i) * 7)) : ""},${bar(i)}`;
    const { record } = await told(log("Time,Pressure (bar)", write)).catch(() => ({ record: null }));
    expect(record?.notes.map(({ kind }) => kind) ?? []).not.toContain("stamps-once");
  });
});

describe("stamps of a list beside the log are no clock of it", () => {
  const alarm = (d: Date, i: number) => (i === 4 || i === 9 || i === 31 ? iso(d) : "");
  test.each([
    ["Elapsed (s)", (_: Date, i: number) => String(10 * i), "0", "590"],
    ["epoch", (d: Date) => String(d.getTime() / 1000), A, B],
    ["Time", (d: Date) => (45_418 + (d.getTime() / 1000 - Date.UTC(2024, 4, 6) / 1000) / 86_400).toFixed(7), A, B],
  ] as const)("%s", async (heading, write, from, to) => {
    const text = log(`${heading},Pressure (bar),Alarm at`, (d, i) => `${write(d, i)},${bar(i)},${alarm(d, i)}`);
    expect(await told(text)).toMatchObject({ from, to, rows: { accepted: 60 }, asked: [] });
  });
  test("start and interval above", async () => {
    const text = log(
      "Start: 2024-05-06 10:00:00\nInterval: 10 s\nPressure (bar),Flow (L/min),Alarm at",
      (d, i) => `${bar(i)},${i},${alarm(d, i)}`,
    );
    expect(await told(text)).toMatchObject({ from: A, to: B, rows: { accepted: 60 }, asked: [] });
  });
});

describe("a time under the name of a duration counts from the start", () => {
  const day = Date.UTC(2024, 4, 6) / 1000;
  test.each(["Duration", "Dauer", "Durata", "Duración", "Duração", "Tijdsduur"])("%s", async (heading) => {
    const text = table(
      `${heading},Pressure (bar)`,
      rows(60, 10, (d, i) => `${hms(d)},${bar(i)}`, day),
    );
    expect(await told(text)).toMatchObject({ from: "0", to: "590", asked: [] });
  });
  test("and one that begins at nothing from the start above, on the hour too", async () => {
    const text = table(
      "Start: 2024-05-06 10:00:00\nTime,Pressure (bar)",
      rows(60, 10, (d, i) => `${hms(d)},${bar(i)}`, day),
    );
    expect(await told(text)).toMatchObject({ from: A, to: B, asked: [] });
  });
});
