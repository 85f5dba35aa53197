import { describe, expect, test } from "vitest";
import { bar, hms, iso, rows, table, told, two } from "../../../builders/log-rows";

const A = "2024-05-06T10:00:00Z";
const ten = (head: string, write: (d: Date, i: number) => string, from?: number) => table(head, rows(20, 10, write, from));
const parts = (d: Date) => hms(d).split(":");

describe("the names of columns of hours, minutes and seconds", () => {
  test.each([
    ["Date,Hour UTC,Minute,Second,Pressure (bar)", "UTC"],
    ["Date,Hour (local),Min.,Sec.,Pressure (bar)", null],
    ["Date,Hour of day (0-23),Minute of hour,Second (0-59),Pressure (bar)", null],
    ["Datum,Stunde CET,Minute,Sekunde,Druck (bar)", "+01:00"],
  ])("%s", async (head, zone) => {
    const { from, asked, record } = await told(ten(head, (d, i) => `2024-05-06,${parts(d).join(",")},${bar(i)}`));
    expect(asked).toEqual([]);
    expect(from).toBe(zone === "+01:00" ? "2024-05-06T09:00:00Z" : A);
    expect(record.clock).toMatchObject({ zone });
  });
  test("year, month and day beside them, each with its zone", async () => {
    const head = "Year UTC,Month UTC,Day UTC,Hour UTC,Minute UTC,Pressure (bar)";
    const text = table(
      head,
      rows(20, 60, (d, i) => `2024,05,06,${parts(d).slice(0, 2).join(",")},${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: A, asked: [] });
  });
});

test("a zone in the heading of a time of day counts where the date stands above the table", async () => {
  const text = ten("Date: 2024-05-06\nTime (CET),Pressure (bar)", (d, i) => `${hms(d)},${bar(i)}`);
  expect(await told(text)).toMatchObject({ from: "2024-05-06T09:00:00Z", asked: [] });
});

describe("the year first and the month last", () => {
  const last = (d: Date) => `${d.getUTCFullYear()}-${two(d.getUTCDate())}-${two(d.getUTCMonth() + 1)} ${hms(d)}`;
  test("a day above 12 shows it", async () => {
    const from = Date.UTC(2024, 1, 17, 10) / 1000;
    expect(await told(ten("Time,Pressure (bar)", (d, i) => `${last(d)},${bar(i)}`, from))).toMatchObject({
      from: "2024-02-17T10:00:00Z",
      asked: [],
    });
  });
  test("the run over midnight shows it", async () => {
    const from = Date.UTC(2024, 1, 5, 23, 58, 20) / 1000;
    expect((await told(ten("Time,Pressure (bar)", (d, i) => `${last(d)},${bar(i)}`, from))).from).toBe("2024-02-05T23:58:20Z");
  });
  test("one day is that of ISO 8601", async () => {
    expect((await told(ten("Time,Pressure (bar)", (d, i) => `${iso(d)},${bar(i)}`))).from).toBe(A);
  });
  test("so are two visits with a month between them", async () => {
    const second = Date.UTC(2024, 5, 6, 8) / 1000;
    const visit = (from?: number) => rows(20, 10, (d, i) => `${iso(d)},${bar(i)}`, from);
    expect((await told(table("Time,Pressure (bar)", [...visit(), ...visit(second)]))).to).toBe("2024-06-06T08:03:10Z");
  });
});

describe("the last day of a year in two digits each", () => {
  const from = Date.UTC(2024, 11, 31, 10) / 1000;
  const write = (d: Date, i: number) => `31/12/24 ${hms(d)},${bar(i)}`;
  test.each([
    ["the language of the headings", "Zeit,Druck (bar)", "log.csv"],
    ["a year in the name of the file", "Time,Pressure (bar)", "pump-2024.csv"],
    ["a date above the table", "Read out: 2025-01-02\nTime,Pressure (bar)", "log.csv"],
  ])("%s settles the order", async (_, head, name) => {
    expect(await told(ten(head, write, from), name)).toMatchObject({ from: "2024-12-31T10:00:00Z", asked: [] });
  });
  test("without a clue it is asked", async () => {
    expect((await told(ten("Time,Pressure (bar)", write, from))).asked).toEqual(["date-order"]);
  });
});
