import { describe, expect, test } from "vitest";
import { bar, hms, iso, rows, table, told } from "../../builders/log-rows";

/** The first value of each channel in SI, its role, and what is asked. */
async function first(text: string) {
  const { record, asked, from } = await told(text);
  return { asked, from, channels: record.channels.map(({ role, values }) => [role, Number(values[0].toPrecision(4))]) };
}
const log = (head: string, write: (at: string, i: number) => string) =>
  table(
    head,
    rows(40, 10, (d, i) => write(iso(d), i)),
  );
const FROM = "2024-05-06T10:00:00Z";

describe("what stands behind a number or is lost from it does not lose the column", () => {
  // 2,110 turns a minute are 35.17 a second
  test("a unit that begins with a one", async () => {
    expect(await first(log("Time;Speed [U/min];Pressure", (t, i) => `${t};${2110 + i} 1/min;${bar(i)} bar`))).toEqual({
      asked: [],
      from: FROM,
      channels: [
        ["speed", 35.17],
        ["pressure", 3e5],
      ],
    });
  });
  test("a word for a good value behind the unit, and the sum that checks the line", async () => {
    const text = log("Time,Pressure,Flow (L/min)", (t, i) => `${t},${bar(i)} bar (ok),${60 + i}.0*${(16 + i).toString(16).toUpperCase()}`);
    expect(await first(text)).toMatchObject({
      asked: [],
      channels: [
        ["pressure", 3e5],
        ["flow", 1e-3],
      ],
    });
  });
  test("thousands with a curly mark and decimal commas", async () => {
    const text = log("Data e ora;Pressione (mbar);Portata (l/h)", (t, i) => `${t};3’${530 + i},1;1’${800 + i},0`);
    expect(await first(text)).toMatchObject({
      asked: [],
      channels: [
        ["pressure", 353_000],
        ["flow", 5e-4],
      ],
    });
  });
  test("units of which an export to ASCII left a question mark", async () => {
    const text = log("Zeit;Netzdruck (bar);Durchfluss (m?/h);Wassertemperatur (?C)", (t, i) => `${t};${bar(i)};${3.6 + i};13.45`);
    expect(await first(text)).toMatchObject({
      asked: [],
      channels: [
        ["pressure", 3e5],
        ["flow", 1e-3],
        ["temperature", 286.6],
      ],
    });
  });
});

test("a signal in a column that stands elsewhere after a restart is judged by its own cells", async () => {
  const before = rows(20, 10, (d, i) => `${iso(d)},${30 + i},${(4 + i / 2).toFixed(1)}`);
  const after = rows(20, 10, (d, i) => `${iso(d)},${(4 + i / 2).toFixed(1)},${30 + i}`, Date.UTC(2024, 4, 6, 11) / 1000);
  const { record, asked } = await told(
    table("Time,Outlet pressure [mH2O],House pressure 2 [mA]", [...before, "Time,House pressure 2 [mA],Outlet pressure [mH2O]", ...after]),
  );
  expect(asked).toEqual(["range:House pressure 2 [mA]"]);
  expect(record.channels.map(({ heading, values }) => [heading, values[20]])).toEqual([
    ["Outlet pressure [mH2O]", expect.closeTo(30 * 9806.65, -2)],
    ["House pressure 2 [mA]", expect.closeTo(0.004, 6)],
  ]);
});

describe("the clock", () => {
  test("a date of the instrument beside the first row is none of its times", async () => {
    const text = table(
      "Time,Pressure (bar),Last calibration",
      rows(40, 10, (d, i) => `${hms(d)},${bar(i)},${i === 0 ? "2023-11-03" : ""}`),
    );
    expect(await first(text)).toMatchObject({ asked: ["start-time"], from: "0" });
  });
  // from 1904-01-01 to 2024-05-06: 43,956 days
  test("day numbers from 1904, as the heading says", async () => {
    const text = table(
      "Date (1904 date system),Pressure (bar)",
      rows(40, 60, (d, i) => `${(43_956 + (d.getTime() / 1000 - Date.UTC(2024, 4, 6) / 1000) / 86_400).toFixed(7)},${bar(i)}`),
    );
    expect(await first(text)).toMatchObject({ asked: [], from: FROM });
  });
  test("samples counted from a first one, each so long", async () => {
    const text = table(
      "1 sample = 10 s\nFirst sample: 2024-05-06 10:00:00\n\nSample,Pressure (bar)",
      rows(40, 10, (_, i) => `${i + 1},${bar(i)}`),
    );
    const { from, to, asked } = await told(text);
    expect({ from, to, asked }).toEqual({ from: FROM, to: "2024-05-06T10:06:30Z", asked: [] });
  });
});

test("runs of tabs between headings and cells part them once", async () => {
  const text = table(
    "Time\t\t\tPressure (bar)\t\tFlow (L/min)",
    rows(40, 10, (d, i) => `${iso(d)}\t${bar(i)}\t\t${60 + i}.0`),
  );
  expect(await first(text)).toEqual({
    asked: [],
    from: FROM,
    channels: [
      ["pressure", 3e5],
      ["flow", 1e-3],
    ],
  });
});

describe("a flow in hertz is the frequency of its meter", () => {
  const write = (t: string, i: number) => `${t},${bar(i)},${i % 3 === 0 ? 50 : 48.5}`;
  test("and needs the volume of a pulse", async () => {
    const { asked, channels } = await first(log("Time,Pressure (bar),Flow sensor frequency (Hz)", write));
    expect({ asked, role: channels[1][0] }).toEqual({ asked: ["k-factor:Flow sensor frequency (Hz)"], role: "flow" });
  });
  // 50 pulses a second of 2 mL each are 0.1 L/s
  test("which the file may name", async () => {
    const text = log("K-factor: 500 pulses/L\nTime,Pressure (bar),Durchflusssensor (Hz)", write);
    expect(await first(text)).toMatchObject({
      asked: [],
      channels: [
        ["pressure", 3e5],
        ["flow", 1e-4],
      ],
    });
  });
});

describe("days with a time of day", () => {
  test("counted within the year that a line names", async () => {
    // 6 May is the 127th day of a leap year
    const text = table(
      "Year: 2024\nDOY:HH:MM:SS,Pressure (bar)",
      rows(40, 10, (d, i) => `127:${hms(d)},${bar(i)}`),
    );
    expect(await first(text)).toMatchObject({ asked: [], from: FROM });
  });
  test("counted from the start", async () => {
    const text = table(
      "Time,Pressure (bar)",
      rows(40, 60, (d, i) => `Day ${i < 20 ? 1 : 2} ${hms(new Date(d.getTime() + 49_200_000))},${bar(i)}`),
    );
    const { from, to, record } = await told(text);
    expect({ from, to, rows: record.rows.accepted }).toEqual({ from: "0", to: "2340", rows: 40 });
  });
});

test("a unit behind 'in' may begin with a capital, and the speed of sound is none of a pump", async () => {
  const text = log("Zeit,Druck in Bar,Speed of sound (m/s)", (t, i) => `${t},${bar(i)},${1450 + (i % 3)}`);
  const { asked, channels } = await first(text);
  expect({ asked, roles: channels.map(([role]) => role) }).toEqual({ asked: [], roles: ["pressure", "other"] });
});

test("date and time in two cells under one heading leave the other headings where they belong", async () => {
  for (const [head, date] of [
    ["Date,Pressure (bar),Flow (L/min)", "2024-05-06"],
    ["Date and time,Pressure (bar),Flow (L/min)", "06.05.2024"],
  ]) {
    const { record } = await told(
      table(
        head,
        rows(40, 10, (d, i) => `${date},${hms(d)},${bar(i)},${60 + i}.0`),
      ),
    );
    expect(record.channels.map(({ heading, role }) => [heading, role])).toEqual([
      ["Pressure (bar)", "pressure"],
      ["Flow (L/min)", "flow"],
    ]);
  }
});

test("columns of words and numbers exchanged after a restart are one table", async () => {
  const from = Date.UTC(2024, 4, 6, 11) / 1000;
  const text = table("Time,Pump running,Pressure (bar)", [
    ...rows(20, 10, (d, i) => `${iso(d)},${i % 4 < 2 ? "TRUE" : "FALSE"},${bar(i)}`),
    "Time,Pressure (bar),Pump running",
    ...rows(40, 10, (d, i) => `${iso(d)},${bar(i)},${i % 4 < 2 ? "TRUE" : "FALSE"}`, from),
  ]);
  const { record, rows: counted } = await told(text);
  expect(counted.accepted).toBe(60);
  expect(record.channels.map(({ heading, values }) => [heading, values[0], values[20]])).toEqual([
    ["Pump running", 1, 1],
    ["Pressure (bar)", expect.closeTo(3e5, -1), expect.closeTo(3e5, -1)],
  ]);
});

test("a column under a unit of which no cell is a number is left out with a word", async () => {
  for (const cell of ["abc", "3.50 / 4", "3.50#A", "0.038x10^2"]) {
    const { record } = await told(log("Time,Pressure (bar),Flow (L/min)", (t, i) => `${t},${cell},${60 + i}.0`));
    expect(record.notes).toEqual([{ kind: "unread-column", heading: "Pressure (bar)", cell }]);
  }
});
