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

describe("what stands beside a date settles its order", () => {
  const from = Date.UTC(2024, 3, 3, 10) / 1000;
  const dmy = (d: Date) => `03/04/2024 ${hms(d)}`;
  test.each([
    ["a weekday", "Day,Time,Pressure (bar)", (d: Date) => `Wednesday,${dmy(d)}`],
    ["a weekday of two letters", "Tag,Time,Pressure (bar)", (d: Date) => `Mi,${dmy(d)}`],
    ["a month", "Month,Time,Pressure (bar)", (d: Date) => `April,${dmy(d)}`],
    ["Unix seconds", "Unix,Local,Pressure (bar)", (d: Date) => `${d.getTime() / 1000},${dmy(d)}`],
    ["a stamp of ISO 8601", "ISO,Local,Pressure (bar)", (d: Date) => `${iso(d)}Z,${dmy(d)}`],
  ])("%s", async (_, head, write) => {
    expect(await told(ten(head, (d, i) => `${write(d)},${bar(i)}`, from))).toMatchObject({ from: "2024-04-03T10:00:00Z", asked: [] });
  });
  test("a line under the table", async () => {
    const text = `${ten("Time,Pressure (bar)", (d, i) => `${dmy(d)},${bar(i)}`, from)}Last record: 03-Apr-2024 10:03:10\n`;
    expect(await told(text)).toMatchObject({ from: "2024-04-03T10:00:00Z", asked: [] });
  });
});

describe("parts of the stamp in columns of their own", () => {
  test.each([
    ["Y,M,D,h,m,s", (d: Date) => `2024,5,6,${parts(d).map(Number).join(",")}`],
    ["YYYY,MM,DD,hh,mm,ss", (d: Date) => `2024,05,06,${parts(d).join(",")}`],
    ["YY,MM,DD,HH,MI,SS", (d: Date) => `24,05,06,${parts(d).join(",")}`],
    ["yyyy,mo,dd,hh,mi,ss", (d: Date) => `2024,05,06,${parts(d).join(",")}`],
    ["Day,Month,Year,Time", (d: Date) => `6,May,2024,${hms(d)}`],
    ["Tag,Monat,Jahr,Stunde,Minute,Sekunde", (d: Date) => `6,Mai,2024,${parts(d).map(Number).join(",")}`],
    ["Date,HH,MM,SS", (d: Date) => `2024-05-06,${parts(d).join(",")}`],
    ["Fecha,Hora,Minuto,Segundo", (d: Date) => `06/05/2024,${parts(d).map(Number).join(",")}`],
  ])("%s", async (head, write) => {
    const { from, to } = await told(ten(`${head},Pressure (bar)`, (d, i) => `${write(d)},${bar(i)}`));
    expect([from, to]).toEqual([A, "2024-05-06T10:03:10Z"]);
  });
  test.each(["Hour", "Hour ending"])("a date and %s to 24", async (name) => {
    const hour = (i: number) => (i % 24) + 1;
    const text = table(
      `Date,${name},Pressure (bar)`,
      rows(48, 3600, (d, i) => `${iso(d).slice(0, 10)},${hour(i)},${bar(i)}`, Date.UTC(2024, 4, 6) / 1000),
    );
    expect(await told(text)).toMatchObject({ from: "2024-05-06T01:00:00Z", to: "2024-05-08T00:00:00Z", asked: [] });
  });
});

describe("times of day by hand, beside a date", () => {
  test.each(["8.05", "8.05 Uhr", "8.05 h", "8 Uhr 05", "kl. 8.05", "08-05", "0805h", "0805 hrs", "8h05", "08h05m00s"])(
    "%s",
    async (form) => {
      const write = (d: Date) => {
        const [h, m] = parts(d);
        const short = form.startsWith("0") || form.startsWith("kl. 0") ? h : String(Number(h));
        return form.replace(/0?8/, short).replace("05", m);
      };
      const text = table(
        "Date;Time;Pressure (bar)",
        rows(90, 60, (d, i) => `06.05.2024;${write(d)};${bar(i)}`, Date.UTC(2024, 4, 6, 8) / 1000),
      );
      expect(await told(text)).toMatchObject({ from: "2024-05-06T08:00:00Z", to: "2024-05-06T09:29:00Z", asked: [] });
    },
  );
});

describe("decimal commas and dates that read in more than one way", () => {
  const comma = (d: Date, i: number) => `${dmy(d)} ${hms(d)};${bar(i).replace(".", ",")}`;
  const dmy = (d: Date) => `${two(d.getUTCDate())}/${two(d.getUTCMonth() + 1)}/${d.getUTCFullYear()}`;
  test("no language or country with a decimal comma writes the month first", () => {
    const regions = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].flatMap((a) => [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].map((b) => a + b));
    const languages = [
      "af",
      "da",
      "de",
      "en",
      "es",
      "fi",
      "fr",
      "hu",
      "it",
      "lt",
      "nb",
      "nl",
      "pl",
      "pt",
      "ro",
      "ru",
      "sv",
      "tr",
      "uk",
      "xh",
    ];
    const known = languages
      .flatMap((language) => regions.map((region) => `${language}-${region}`))
      .filter((name) => {
        return new Intl.NumberFormat(name).resolvedOptions().locale === name;
      });
    const writesComma = known.filter((name) => new Intl.NumberFormat(name).format(1.5) === "1,5");
    const firstOf = (name: string) =>
      new Intl.DateTimeFormat(name, { dateStyle: "short" }).formatToParts(0).find(({ type }) => ["day", "month", "year"].includes(type))
        ?.type;
    expect(writesComma.length).toBeGreaterThan(80);
    expect(writesComma.filter((name) => firstOf(name) === "month")).toEqual([]);
    // some have the year first, so that two digits each are asked
    expect(writesComma.filter((name) => firstOf(name) === "year")).toContain("fr-CA");
  });
  test("the day is first, and that is said", async () => {
    const { from, asked, record } = await told(ten("Time;Pressure (bar)", comma, Date.UTC(2024, 4, 4, 10) / 1000));
    expect({ from, asked, notes: record.notes.map(({ kind }) => kind) }).toEqual({
      from: "2024-05-04T10:00:00Z",
      asked: [],
      notes: ["date-order"],
    });
  });
  test("but where only the month first gives an even clock it is first", async () => {
    const write = (d: Date, i: number) => `${two(d.getUTCMonth() + 1)}/${two(d.getUTCDate())}/2024 ${hms(d)};${bar(i).replace(".", ",")}`;
    const { from } = await told(ten("Time;Pressure (bar)", write, Date.UTC(2024, 4, 4, 23, 59, 10) / 1000));
    expect(from).toBe("2024-05-04T23:59:10Z");
  });
  test("two digits each may have the year first: asked", async () => {
    const write = (d: Date, i: number) => `05/06/07 ${hms(d)};${bar(i).replace(".", ",")}`;
    expect((await told(ten("Time;Pressure (bar)", write))).asked).toEqual(["date-order"]);
    // unless the headings speak a language that has the day first
    expect((await told(ten("Zeit;Druck (bar)", write))).asked).toEqual([]);
  });
});
