import { describe, expect, test } from "vitest";
import { bar, hms, iso, rows, table, told } from "../../builders/log-rows";

const A = "2024-05-06T10:00:00Z";
const H = "Time,Pressure (bar)";
const ten = (head: string, write: (d: Date, i: number) => string) => table(head, rows(20, 10, write));

describe("stamps with marks of their own", () => {
  test.each([
    // IEC 61131-3, table of date and time literals
    ["a literal of a controller", (d: Date) => `DT#${iso(d).replace("T", "-")}`],
    ["a date and a time of a controller in one", (d: Date) => `D#${iso(d).slice(0, 10)} TOD#${hms(d)}`],
    ["its long name", (d: Date) => `DATE_AND_TIME#${iso(d).replace("T", "-")}`],
    ["Chinese", (d: Date) => `${d.getUTCFullYear()}年${d.getUTCMonth() + 1}月${d.getUTCDate()}日 ${hms(d)}`],
    ["Chinese to the second", (d: Date) => `2024年05月06日${hms(d).replace(":", "时").replace(":", "分")}秒`],
    ["Japanese with a weekday", (d: Date) => `2024年5月6日(月) ${hms(d).replace(":", "時").replace(":", "分")}秒`],
    ["Korean with the half of the day", (d: Date) => `2024년 5월 6일 오전 ${hms(d)}`],
    ["twelve digits with a short year", (d: Date) => iso(d).replace(/\D/g, "").slice(2)],
  ])("%s", async (_, write) => {
    expect(await told(ten(H, (d, i) => `${write(d)},${bar(i)}`))).toMatchObject({ from: A, to: "2024-05-06T10:03:10Z", asked: [] });
  });
  test("a time with a dot and its word beside a date", async () => {
    const text = table(
      "Datum;Uhrzeit;Druck (bar)",
      rows(20, 60, (d, i) => `06.05.2024;${hms(d).slice(0, 5).replace(":", ".")} Uhr;${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: A, to: "2024-05-06T10:19:00Z", asked: [] });
  });
});

describe("states with their numbers", () => {
  test.each(["1: RUN|0: STOP", "1=ON|0=OFF", "1 - läuft|0 - steht", "ON (1)|OFF (0)", "(1) Running|(0) Stopped"])("%s", async (pair) => {
    const [on, off] = pair.split("|");
    const { record } = await told(ten(`${H},Pump 1 run state`, (d, i) => `${iso(d)},${bar(i)},${i % 4 < 2 ? on : off}`));
    expect(record.channels[1]).toMatchObject({ role: "running" });
    expect(Array.from(record.channels[1].values.slice(0, 4))).toEqual([1, 1, 0, 0]);
  });
  test("a cross under a heading that says on leaves nothing to ask, one under the name of the machine alone does", async () => {
    const cross = (name: string) => ten(`${H},${name}`, (d, i) => `${iso(d)},${bar(i)},${i % 4 < 2 ? "x" : ""}`);
    const { record, asked } = await told(cross("Pump on"));
    expect(asked).toEqual([]);
    expect(Array.from(record.channels[1].values.slice(0, 4))).toEqual([1, 1, 0, 0]);
    expect((await told(cross("Pump"))).asked).toEqual(["column-role:Pump"]);
  });
});

test("the units of a long form stand under whatever heading", async () => {
  for (const heading of ["EU", "Dim", "Unit"]) {
    const text = table(
      `Tag,${heading},Time,Value`,
      rows(20, 10, (d, i) => `PT101,bar,${iso(d)},${bar(i)}\nFT101,L/min,${iso(d)},${10 + i}`),
    );
    const { record, asked } = await told(text);
    expect(asked).toEqual([]);
    expect(record.channels.map(({ role, unitInFile }) => [role, unitInFile])).toEqual([
      ["pressure", "bar"],
      ["flow", "L/min"],
    ]);
  }
});

test("a number with a mark of doubt is read, and that is said", async () => {
  const { record } = await told(ten(H, (d, i) => `${iso(d)},${bar(i)}${i === 7 ? "?" : ""}`));
  expect(record.channels[0].values[7]).toBeCloseTo(3e5);
  expect(record.notes).toEqual([expect.objectContaining({ kind: "marked-cells", line: 9 })]);
});

test("a verdict behind every number is no part of it", async () => {
  const { record } = await told(ten(H, (d, i) => `${iso(d)},${bar(i)} ${i === 7 ? "bad" : "good"}`));
  expect(record.channels[0]).toMatchObject({ role: "pressure" });
  expect(record.rejects.map(({ row }) => row)).toEqual([9]);
});

test("texts of several lines that end in a lone quote are no marks of repetition", async () => {
  const { record } = await told(ten("Note,Time,Pressure (bar)", (d, i) => `"seen\n",${iso(d)},${bar(i)}`));
  expect(record.rows.accepted).toBe(20);
});

describe("what a line has beside its cells", () => {
  test.each([
    ["brackets", (row: string) => `(${row})`],
    ["a semicolon behind", (row: string) => `${row};`],
    ["a full stop behind", (row: string) => `${row}.`],
    ["brackets and a comma", (row: string) => `[${row}],`],
  ])("%s", async (_, write) => {
    const { record, asked } = await told(ten(`${H},Flow (L/min)`, (d, i) => write(`${iso(d)},${bar(i)},${(10 + i).toFixed(1)}`)));
    expect(asked).toEqual([]);
    expect(record.channels.map(({ role }) => role)).toEqual(["pressure", "flow"]);
    expect(record.channels[1].values[3]).toBeCloseTo(13e-3 / 60, 9);
  });
  test.each(['"', "„", "do.", "dito", "〃"])("the mark of repetition %s", async (mark) => {
    const text = ten("Date;Time;Pressure (bar)", (d, i) => `${i === 0 ? "06.05.2024" : mark};${hms(d)};${bar(i)}`);
    expect(await told(text)).toMatchObject({ from: A, to: "2024-05-06T10:03:10Z", asked: [] });
  });
});

describe("decimal marks and groups of other places", () => {
  test.each([
    ["3\u066b64", 364_000],
    ["3\u00b764", 364_000],
  ])("%s bar", async (cell, pascal) => {
    const { record } = await told(ten(H, (d, i) => `${iso(d)},${i === 0 ? cell : cell.replace("64", `6${i % 10}`)}`));
    expect(record.channels[0]).toMatchObject({ role: "pressure" });
    expect(record.channels[0].values[0]).toBeCloseTo(pascal, 0);
  });
  test("groups of two before the last three, as in India", async () => {
    const { record } = await told(ten("Time;Pressure (Pa)", (d, i) => `${iso(d)};3,64,1${10 + i}`));
    expect(record.channels[0].values[0]).toBe(364_110);
  });
});

test("a legend by the number of the column", async () => {
  const { record, asked } = await told(
    ten("Column 2 = pressure (bar)\nColumn 3 = flow (L/min)\n\nTime,V1,V2", (d, i) => `${iso(d)},${bar(i)},${10 + i}`),
  );
  expect(asked).toEqual([]);
  expect(record.channels.map(({ role, unitInFile }) => [role, unitInFile])).toEqual([
    ["pressure", "bar"],
    ["flow", "L/min"],
  ]);
});

test("a long form whose values carry their units", async () => {
  const text = table(
    "Time;Channel;Value",
    rows(20, 10, (d, i) => `${iso(d)};Discharge pressure;${bar(i)} bar\n${iso(d)};Discharge flow;${10 + i}.5 L/min`),
  );
  const { record, asked } = await told(text);
  expect(asked).toEqual([]);
  expect(record.channels.map(({ role, unitInFile }) => [role, unitInFile])).toEqual([
    ["pressure", "bar"],
    ["flow", "L/min"],
  ]);
});

test("rows that another delimiter cuts from the middle on are read, and that is said", async () => {
  const text = ten(`${H},Flow (L/min)`, (d, i) => [iso(d), bar(i), `${10 + i}`].join(i < 10 ? "," : ";"));
  const { record } = await told(text);
  expect(record.rows).toMatchObject({ accepted: 20, rejected: 0 });
  expect(record.notes.map(({ kind }) => kind)).toEqual(["delimiter-changes"]);
});

test.each(["Mean", "Mittelwert", "Moyenne", "Media", "Summe", "Max"])(
  "a row of statistics under rows without times is none of them: %s",
  async (word) => {
    const head = "Start: 2024-05-06 10:00:00\nInterval: 10 s\nPressure (bar);Flow (L/min)";
    const text = `${ten(head, (_, i) => `${bar(i)};${10 + i}`)}\n${word};17.5\n`;
    expect(await told(text)).toMatchObject({ from: A, to: "2024-05-06T10:03:10Z", rows: { accepted: 20 } });
  },
);

test("names by number above a table without headings", async () => {
  const { record } = await told(
    ten("Column 1: Time\nColumn 2: Pressure (bar)\nColumn 3: Flow (L/min)\n", (d, i) => `${iso(d)},${bar(i)},${10 + i}`),
  );
  expect(record.channels.map(({ heading, role }) => [heading, role])).toEqual([
    ["Pressure (bar)", "pressure"],
    ["Flow (L/min)", "flow"],
  ]);
});

test("a start under the rows, and an interval beside a start", async () => {
  const below = `${ten("Elapsed (s),Pressure (bar)", (_, i) => `${i * 10},${bar(i)}`)}\nStarted: 2024-05-06 10:00:00\n`;
  expect(await told(below)).toMatchObject({ from: A, to: "2024-05-06T10:03:10Z", asked: [] });
  const beside = ten("First sample: 2024-05-06 10:00:00; interval 10 s\nNo,Pressure (bar)", (_, i) => `${i + 1},${bar(i)}`);
  expect(await told(beside)).toMatchObject({ from: A, to: "2024-05-06T10:03:10Z", asked: [] });
});

test.each(["utc_time", "Time (Z)", "TimeUTC", "GMT"])("the heading %s names the zone", async (heading) => {
  const { record, asked } = await told(ten(`${heading},Pressure (bar)`, (d, i) => `${iso(d)},${bar(i)}`));
  expect([asked, record.clock]).toMatchObject([[], { zone: "UTC" }]);
});

test("a unit in capitals behind its quantity", async () => {
  const { record, asked } = await told(ten("FECHA,PRESION SALIDA BAR,CAUDAL L/MIN", (d, i) => `${iso(d)},${bar(i)},${10 + i}`));
  expect([asked, record.channels.map(({ unitInFile }) => unitInFile)]).toEqual([[], ["bar", "L/min"]]);
});

describe("rows that break off in mid-file", () => {
  const cut = (broken: string) => {
    const lines = rows(60, 10, (d, i) => `${iso(d)},${bar(i)},${(10 + i / 10).toFixed(1)}`);
    return table(`${H},Flow (L/min)`, [...lines.slice(0, 20), broken, ...lines.slice(21)]);
  };
  test("in their first value are rejected by line", async () => {
    expect((await told(cut("2024-05-06T10:03:20,3"))).record.rejects.map(({ row }) => row)).toEqual([22]);
  });
  test("in a later value lose that, and it is said", async () => {
    const { record } = await told(
      cut("2024-05-06T10:03:20,3.60,1")
        .replaceAll("Flow (L/min)", "Flow (L/min),Note")
        .replace(/(\d)\n/g, "$1,\n")
        .replace("3.60,1,", "3.60,1"),
    );
    expect(record.channels[1].values[20]).toBeNaN();
    expect(record.channels[0].values[20]).toBeCloseTo(3.6e5, 0);
    expect(record.notes.map(({ kind }) => kind)).toContain("cut-cell");
  });
  test("in their stamp are rejected by line", async () => {
    expect((await told(cut("2024-05-06T10:03:2"))).record.rejects.map(({ row }) => row)).toEqual([22]);
  });
  test("behind a whole value lose nothing", async () => {
    const { record } = await told(cut("2024-05-06T10:03:20,3.60"));
    expect([record.rows.accepted, Math.round(record.channels[0].values[20])]).toEqual([60, 360_000]);
  });
});

test("units in a column of their own are read row by row where one is another", async () => {
  const text = table(
    "Time,Pressure,Unit,Flow,Unit",
    rows(60, 10, (d, i) => `${iso(d)},${i === 30 ? "310" : bar(i)},${i === 30 ? "kPa" : "bar"},${10 + i},L/min`),
  );
  const { record } = await told(text);
  expect(Math.round(record.channels[0].values[30])).toBe(310_000);
  expect(Math.round(record.channels[0].values[31])).toBe(Math.round(Number(bar(31)) * 1e5));
});
