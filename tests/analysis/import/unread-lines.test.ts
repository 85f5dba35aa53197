import { describe, expect, test } from "vitest";
import { noteKind, sayReadingNote } from "../../../shared/wording/reading-note";
import { bar, iso, rows, table, told } from "../../builders/log-rows";

// Wordings of our own that no reader knows; what has to follow is common practice, no source.
const ten = (head: string, write: (d: Date, i: number) => string) => table(head, rows(20, 10, write));
const tenths = (d: Date, i: number) => `${iso(d)},${Math.round(Number(bar(i)) * 10)}`;
const plain = (d: Date, i: number) => `${iso(d)},${bar(i)}`;
const HEAD = "Time,Pressure (bar)";

const notesOf = ({ record }: Awaited<ReturnType<typeof told>>) =>
  record.notes.filter((note) => noteKind(note) === "unread-line").map((note) => sayReadingNote(note, null));

describe("a line with a number that no reader understands is said, and asked where it would change something", () => {
  test.each([
    ["Reduktionsfaktor 10", tenths, "unit:Pressure (bar)"],
    ["Zeitzone liegt 2 vor der Weltzeit", plain, "time-zone"],
    ["Horloge en avance de 2 heures sur UTC", plain, "time-zone"],
    ["Fill value 7", (d: Date, i: number) => (i % 6 === 4 ? `${iso(d)},7` : plain(d, i)), "sentinel:Pressure (bar)"],
  ])("%s", async (line, write, question) => {
    const found = await told(ten(`${line}\n${HEAD}`, write));
    expect(found.asked).toEqual([question]);
    expect(notesOf(found)).toEqual([expect.stringContaining(line)]);
  });
  test("an offset of the values is said only: the logger may have applied it", async () => {
    const found = await told(ten(`Pressure offset: 0.2 bar\n${HEAD}`, plain));
    expect(found.asked).toEqual([]);
    expect(notesOf(found)).toHaveLength(1);
  });
  test("below the rows too", async () => {
    const found = await told(`${ten(HEAD, tenths).trimEnd()}\nReduktionsfaktor 10\n`);
    expect(found.asked).toEqual(["unit:Pressure (bar)"]);
    expect(notesOf(found)).toHaveLength(1);
  });
  test("lines about other things are let alone", async () => {
    const lines =
      "Pump start pressure: 2.8 bar\nScale: 0-10 bar\nZone 3\nPower factor 0.8\nSensor offset: 0.00\nMissing samples: 0\nGain: 1";
    const found = await told(ten(`${lines}\n${HEAD}`, plain));
    expect([found.asked, notesOf(found)]).toEqual([[], []]);
  });
  test("a count of missing rows is no mark", async () => {
    const { record } = await told(ten("Missing samples: 0\nTime,Flow (L/min)", (d, i) => `${iso(d)},${i % 5 < 2 ? 0 : 18 + i}.0`));
    expect(record.channels[0].values[0]).toBe(0);
  });
});

describe("values that cannot be in their unit are asked", () => {
  test.each([
    ["Pressure (bar)", 100],
    ["Pressure (mbar)", 1],
  ])("%s", async (heading, times) => {
    const { asked, record } = await told(ten(`Time,${heading}`, (d, i) => `${iso(d)},${(Number(bar(i)) * times).toFixed(2)}`));
    expect([asked, record.channels[0].unitInFile]).toEqual([[`unit:${heading}`], heading.includes("mbar") ? "mbar" : "bar"]);
  });
  test("litres under a flow that do not rise", async () => {
    expect((await told(ten("Time,Flow (L)", (d, i) => `${iso(d)},${(0.3 + (i % 3) / 10).toFixed(1)}`))).asked).toEqual(["unit:Flow (L)"]);
  });
});

describe("clocks that say too little are asked", () => {
  test("two fields from 00:00", async () => {
    const { asked } = await told(ten(HEAD, (_, i) => `00:${String(i).padStart(2, "0")},${bar(i)}`));
    expect(asked).toContain("clock");
  });
  test("a clock at 1970 counts from an unknown start", async () => {
    const { asked, record } = await told(ten(HEAD, (_, i) => `1970-01-01 00:00:${String(i * 2).padStart(2, "0")},${bar(i)}`));
    expect([asked, record.clock.kind]).toEqual([["start-time"], "elapsed"]);
  });
});
