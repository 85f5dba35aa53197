import { describe, expect, test } from "vitest";
import { bar, iso, MAY_6, rows, table, told } from "../../builders/log-rows";

const A = "2024-05-06T10:00:00Z";

describe("a unit of the trade in other letters", () => {
  test.each([
    ["Flow (㎥/h)", "m³/h"], // Unicode UAX 15: the compatibility form of U+33A5 is m3
    ["Flow (ℓ/min)", "L/min"],
    ["Durchfluss (Ltr./min)", "L/min"],
    ["Pressure (㎪)", "kPa"],
    ["Temperatur (C°)", "°C"],
    ["waterTempC", "°C"],
    ["Reservoir level (mAOD)", "m"],
  ])("%s", async (heading, unit) => {
    const { record, asked } = await told(
      table(
        `Time,${heading}`,
        rows(20, 10, (d, i) => `${iso(d)},${bar(i)}`),
      ),
    );
    expect(record.channels[0].unitInFile).toBe(unit);
    expect(asked).toEqual([]);
  });
  test("three sensors by a capital letter are places, not degrees", async () => {
    const text = table(
      "Time,Pressure (bar),TempA,TempB",
      rows(20, 10, (d, i) => `${iso(d)},${bar(i)},${15 + (i % 3)},${16 + (i % 3)}`),
    );
    expect((await told(text)).asked).toEqual(["unit:TempA", "unit:TempB"]);
  });
});

describe("other things than the water's own", () => {
  test.each(["Velocidade do vento (km/h)", "Temps de marche (h)", "Horímetro (h)", "Draaiuren (h)"])("%s", async (heading) => {
    const text = table(
      `Time,Pressure (bar),${heading}`,
      rows(20, 60, (d, i) => `${iso(d)},${bar(i)},${(4210 + i / 60).toFixed(2)}`),
    );
    const { record, asked } = await told(text);
    expect(record.channels.map(({ role }) => role)).toEqual(["pressure", "other"]);
    expect(asked).toEqual([]);
  });
});

describe("a heading that spells the date", () => {
  const two = (n: number) => String(n).padStart(2, "0");
  const parts = (d: Date) => [d.getUTCDate(), d.getUTCMonth() + 1, d.getUTCFullYear() % 100, d.getUTCHours(), d.getUTCMinutes()].map(two);
  test("ten digits that Unix seconds could be", async () => {
    const text = table(
      "DDMMYYHHMM,Pressure (bar)",
      rows(90, 60, (d, i) => `${parts(d).join("")},${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: A, to: "2024-05-06T11:29:00Z", asked: [] });
  });
  test("a program took them for a number and lost the zero in front", async () => {
    const text = table(
      "DDMMYYHHMM,Pressure (bar)",
      rows(90, 60, (d, i) => `${Number(parts(d).join(""))},${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: A, asked: [] });
  });
  test("the order of eight digits", async () => {
    const spelt = (form: string) =>
      table(
        `${form},Pressure (bar)`,
        rows(20, 10, (d, i) => `${iso(d).slice(8, 10)}${iso(d).slice(5, 7)}2024 ${iso(d).slice(11).replaceAll(":", "")},${bar(i)}`),
      );
    expect(await told(spelt("DDMMYYYY HHMMSS"))).toMatchObject({ from: A, asked: [] });
    expect(await told(spelt("MMDDYYYY HHMMSS"))).toMatchObject({ from: "2024-06-05T10:00:00Z", asked: [] });
    expect((await told(spelt("Stamp"))).asked).toEqual(["date-order"]);
  });
  test("Unix seconds under a heading of time stay what they are", async () => {
    const text = table(
      "Time,Pressure (bar)",
      rows(20, 10, (d, i) => `${d.getTime() / 1000},${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: A, asked: [] });
  });
});

describe("a weekday above the table settles the order of its date", () => {
  const under = (line: string) =>
    told(
      `${line}\n\n${table(
        "Time,Pressure (bar)",
        rows(20, 10, (d, i) => `${iso(d).slice(8, 10)}/${iso(d).slice(5, 7)}/2024 ${iso(d).slice(11)},${bar(i)}`),
      )}`,
    );
  // 6 May 2024 was a Monday, 5 June 2024 a Wednesday (Gregorian calendar, by the platform)
  test.each([
    ["Report of Monday 06/05/2024", A],
    ["Bericht vom Mittwoch, 06/05/2024", "2024-06-05T10:00:00Z"],
  ])("%s", async (line, from) => expect(await under(line)).toMatchObject({ from, asked: [] }));
  test("one on which the date falls in neither order says nothing", async () => {
    expect((await under("Report of Friday 06/05/2024")).asked).toEqual(["date-order"]);
  });
});

test("dots have the day first behind a time of day too, and with an apostrophe for the century", async () => {
  for (const write of [(d: Date) => `${iso(d).slice(11)}/06.05.2024`, (d: Date) => `06.05.'24 ${iso(d).slice(11)}`]) {
    const text = table(
      "Time,Pressure (bar)",
      rows(20, 10, (d, i) => `${write(d)},${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: A, asked: [] });
  }
});

describe("a block of rows behind those that follow it", () => {
  const minutes = (from: number, n: number) => rows(n, 120, (d, i) => `${iso(d)},${bar(i)}`, MAY_6 + 36_000 + 60 * from);
  test("fills the hole that they leave, also where it begins whole hours back", async () => {
    const text = table("Time,Pressure (bar)", [...minutes(0, 30), ...minutes(120, 30), ...minutes(60, 30), ...minutes(180, 4)]);
    const { asked, from, to, record } = await told(text);
    expect({ asked, from, to }).toEqual({ asked: [], from: A, to: "2024-05-06T13:06:00Z" });
    expect(record.rows).toMatchObject({ accepted: 94, duplicate: 0 });
  });
  test("a clock set back by an hour to before the log begins is still asked", async () => {
    const text = table("Time,Pressure (bar)", [...minutes(60, 25), ...minutes(50, 20)]);
    expect((await told(text)).asked).toEqual(["clock"]);
  });
});

describe("a vacuum in numbers above 0", () => {
  const text = (heading: string, values = [6, 7, 8]) =>
    table(
      `Time,${heading}`,
      rows(20, 10, (d, i) => `${iso(d)},${values[i % 3]}`),
    );
  test("counts downwards, and is asked", async () => {
    const { record, asked } = await told(text("Suction vacuum (inHg)"));
    expect(asked).toEqual(["reference:Suction vacuum (inHg)"]);
    expect(record.channels[0].values[0]).toBeCloseTo(-6 * 3386.389, 0); // NIST SP 811, App. B.8
  });
  test.each([
    ["one that is told as absolute", "Vacuum (kPa abs)", 6000],
    ["a pressure that no word calls a vacuum", "Suction pressure (kPa)", 6000],
  ])("%s stays as it is", async (_, heading, first) => {
    const { record, asked } = await told(text(heading));
    expect(asked).toEqual([]);
    expect(record.channels[0].values[0]).toBeCloseTo(first, 0);
  });
  test("one with numbers below 0 has its sign", async () => {
    const { record, asked } = await told(text("Suction vacuum (kPa)", [-20, -22, -21]));
    expect(asked).toEqual([]);
    expect(record.channels[0].values[0]).toBeCloseTo(-20_000, 0);
  });
});

test("all pressures told absolute above the table, in one word", async () => {
  const text = table(
    "Zeit;Druck (bar)",
    rows(20, 10, (d, i) => `${iso(d)};${bar(i)}`),
  );
  const { record } = await told(`Alle Drücke sind Absolutdrücke\n\n${text}`);
  expect(record.channels[0].quantity).toBe("absolutePressure");
});

describe("an instant in two columns", () => {
  test("Unix seconds and their thousandths, unevenly", async () => {
    const ms = [0, 110, 870];
    const text = table(
      "unix_s,ms,Pressure (bar)",
      rows(30, 1, (_, i) => `${MAY_6 + 36_000 + Math.floor(i / 3)},${ms[i % 3]},${bar(i)}`),
    );
    const { from, to, asked, record } = await told(text);
    expect({ from, to, asked }).toEqual({ from: A, to: "2024-05-06T10:00:09.870Z", asked: [] });
    expect(record.columns[1].role).toBe("time");
  });
  // 27 October 2024, 01:00 UTC: Central European clocks go back from 03:00 to 02:00 (IANA time zone database, Europe/Berlin)
  const autumn = (line: string) =>
    told(
      `${line}\n\n${table(
        "Local time,DST,Pressure (bar)",
        rows(
          40,
          180,
          (d, i) => {
            const summer = d.getTime() < Date.UTC(2024, 9, 27, 1);
            return `${iso(new Date(d.getTime() + (summer ? 7_200_000 : 3_600_000)))},${summer ? 1 : 0},${bar(i)}`;
          },
          Date.UTC(2024, 9, 27, 0) / 1000,
        ),
      )}`,
    );
  test("local time and a flag of summer time under a line that names the zone of both", async () => {
    const { from, to, asked } = await autumn("Clock: UTC+1, summer time where DST=1");
    expect({ from, to, asked }).toEqual({ from: "2024-10-27T00:00:00Z", to: "2024-10-27T01:57:00Z", asked: [] });
  });
  test("without such a line the zone is asked", async () => {
    expect((await autumn("Site log")).asked).toEqual(["time-zone"]);
  });
});
