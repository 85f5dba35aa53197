import { describe, expect, test } from "vitest";
import { bar, iso, rows, table, told } from "../../builders/log-rows";

const ten = (head: string, write: (d: Date, i: number) => string) => table(head, rows(20, 10, write));
const whole = (i: number, times: number) => String(Math.round(Number(bar(i)) * times));

describe("a scale told beside whole numbers", () => {
  test.each([
    ["Multiplier: 0.1", 10],
    ["Gain = 0.01", 100],
    ["Scale;0.01", 100],
    ["Faktor: 0,1", 10],
    ["Fattore di scala: 0,1", 10],
    ["Alle Werte durch 10 teilen", 10],
    ["Values are raw: divide by 100 for bar", 100],
    ["All pressures are stored multiplied by 10", 10],
    ["Decimals: 2", 100],
  ])("%s", async (line, times) => {
    const { record, asked } = await told(ten(`${line}\nTime;Pressure (bar);Note`, (d, i) => `${iso(d)};${whole(i, times)};`));
    expect(asked).toEqual([]);
    // the numbers as written, times what the line says, in Pa
    expect(record.channels[0].values[0]).toBeCloseTo(Number(bar(0)) * 1e5, 0);
  });
  test("tenths in the heading", async () => {
    const { record } = await told(ten("Time;Pressure in tenths of bar", (d, i) => `${iso(d)};${whole(i, 10)}`));
    expect(record.channels[0].values[0]).toBeCloseTo(3e5, 0);
  });
  test("numbers with decimals are scaled already", async () => {
    const { record, asked } = await told(ten("Gain: 0.1\nTime;Pressure (bar)", (d, i) => `${iso(d)};${bar(i)}`));
    expect([asked, Math.round(record.channels[0].values[0])]).toEqual([[], 300_000]);
  });
  test("where both could be it is asked", async () => {
    const { asked } = await told(ten("Gain: 0.1\nTime;Pressure (bar)", (d, i) => `${iso(d)};${10 + (i % 5)}`));
    expect(asked).toEqual(["unit:Pressure (bar)"]);
  });
});

describe("the mark of a missing value told above the table", () => {
  test.each([
    "Missing values are written as -1.00",
    "Fill value;-1.00",
    "No data: -1",
    "Fehlwert = -1,00",
    "No-reading code: -1",
    "Fehlwerte sind mit -1 gekennzeichnet",
    "Les mesures absentes sont codées -1",
    "Los datos que faltan se indican con -1",
    "Valor ausente: -1",
    "Dados em falta são indicados por -1",
    "I dati mancanti sono indicati con -1",
    "Ontbrekende metingen staan als -1",
  ])("%s", async (line) => {
    const text = ten(`${line}\nTime;Pressure (bar)`, (d, i) => `${iso(d)};${i % 6 === 4 ? "-1.00" : bar(i)}`);
    const { record, asked } = await told(text);
    expect(asked).toEqual([]);
    expect(record.channels[0].values[4]).toBeNaN();
  });
  test("a mark without the decimals of the readings is missing, and that is asked", async () => {
    const text = ten("Time;Flow (L/min)", (d, i) => `${iso(d)};${i % 6 === 4 ? "-1" : (18 + i).toFixed(1)}`);
    const { record, asked } = await told(text);
    expect(asked).toEqual(["sentinel:Flow (L/min)"]);
    expect(record.channels[0].values[4]).toBeNaN();
  });
});

describe("a zone in words and numbers", () => {
  // IANA time zone database: the signs of Etc/GMT+5 are those of POSIX, west is positive; POSIX.1, TZ
  test.each([
    ["Time zone: Etc/GMT+5", 5],
    ["Time zone: Etc/GMT-2", -2],
    ["TZ=EST5", 5],
    ["TZ=CET-1", -1],
    ["UTC offset: 7200 s", -2],
    ["UTC offset (s): 7200", -2],
    ["UTC offset: 7200", -2],
    ["Zone offset: -300 min", 5],
    ["GMT offset: -7", 7],
    ["Verschil met UTC: +2 uur", -2],
    ["Décalage UTC : 2 heures", -2],
    ["UTC offset in minutes: 330", -5.5],
    ["utc_offset_hours = -3.5", 3.5],
    ["Logger clock: 5 hours behind UTC", 5],
    ["Logger clock: 2 h ahead of UTC", -2],
  ])("%s", async (line, later) => {
    const { from, asked } = await told(ten(`${line}\nTime,Pressure (bar)`, (d, i) => `${iso(d)},${bar(i)}`));
    expect(asked).toEqual([]);
    expect(from).toBe(`${iso(new Date(Date.UTC(2024, 4, 6, 10) + later * 3_600_000))}Z`);
  });
});

describe("what else is told beside the table", () => {
  test.each([
    ["Locale: en-US", "2024-06-05T10:00:00Z"],
    ["Locale: en_GB", "2024-05-06T10:00:00Z"],
  ])("%s settles the order of dates by the tables of CLDR", async (line, from) => {
    // the fifth of June or the sixth of May
    const { asked, from: first } = await told(ten(`${line}\nTime,Pressure (bar)`, (d, i) => `06/05/2024 ${iso(d).slice(11)},${bar(i)}`));
    expect([asked, first]).toEqual([[], from]);
  });
  test.each([
    "Pulse weight,0.01 m3",
    "Impulswertigkeit: 10 Liter",
    "Litres per pulse: 10",
    "One pulse is 10 litres",
    "1 Impuls entspricht 10 l",
    "10 L/pulse",
  ])("%s", async (line) => {
    const { record, asked } = await told(ten(`${line}\nTime,Pressure (bar),Pulses`, (d, i) => `${iso(d)},${bar(i)},${20 + ((i * 7) % 5)}`));
    expect(asked).toEqual([]);
    expect(record.channels[1].values[0]).toBeCloseTo(0.2, 9);
  });
  test("one unit for all columns of a kind", async () => {
    const { record, asked } = await told(
      ten("All pressures in kPa, flows in L/s\nTime,Pressure,Flow", (d, i) => `${iso(d)},${350 + i},0.${20 + i}`),
    );
    expect([asked, record.channels.map(({ unitInFile }) => unitInFile)]).toEqual([[], ["kPa", "L/s"]]);
  });
  test("a range beside the voltage it is of, though the voltage is never high", async () => {
    const { record, asked } = await told(
      ten("0-10 V = 0-16 bar\nTime,Pressure (V),Flow (L/min)", (d, i) => `${iso(d)},${bar(i)}0,${10 + i}`),
    );
    expect(asked).toEqual([]);
    expect(record.channels[0].values[0]).toBeCloseTo(Number(bar(0)) * 1.6e5, 0);
  });
  test.each([
    ["Minutes since 1970-01-01 UTC,Pressure (bar)", (d: Date) => String(d.getTime() / 60_000)],
    ["Seconds after 06-May-2024 10:00:00,Pressure (bar)", (_: Date, i: number) => String(i * 10)],
    ["Start (unix): 1714989600\nElapsed (s),Pressure (bar)", (_: Date, i: number) => String(i * 10)],
  ])("%s", async (head, write) => {
    const step = head.startsWith("Minutes") ? 60 : 10;
    const text = table(
      head,
      rows(20, step, (d, i) => `${write(d, i)},${bar(i)}`),
    );
    expect(await told(text)).toMatchObject({ from: "2024-05-06T10:00:00Z", asked: [] });
  });
});

test("an interval beside the zone is no offset", async () => {
  const { from, record } = await told(ten("Clock: UTC, interval 15 min\nTime,Pressure (bar)", (d, i) => `${iso(d)},${bar(i)}`));
  expect([from, record.clock]).toMatchObject(["2024-05-06T10:00:00Z", { zone: "UTC" }]);
});

describe("the decimal mark told above the table", () => {
  test.each([
    ["Decimal separator: comma", 1.283],
    ["Dezimaltrennzeichen: Komma", 1.283],
    ["Séparateur décimal : virgule", 1.283],
    ["Separador decimal: coma", 1.283],
    ["Separatore decimale: virgola", 1.283],
    ["Decimaal scheidingsteken: komma", 1.283],
    ["decimal=point", 1283],
  ])("%s", async (line, first) => {
    const { record, asked } = await told(ten(`${line}\nTime\tPressure (mbar)`, (d, i) => `${iso(d)}\t1,${283 + i}`));
    expect([asked.filter((id) => id === "decimal"), Math.round(record.channels[0].values[0] * 10) / 1000]).toEqual([[], first]);
  });
});

test("all pressures are absolute by a word in the plural", async () => {
  const { record } = await told(ten("Alle Drücke sind Absolutdrücke\nZeit;Netzdruck (bar)", (d, i) => `${iso(d)};${bar(i)}`));
  expect(record.channels[0].quantity).toBe("absolutePressure");
});

test.each(["entspricht", "corresponds to", "=", "corresponde a"])("the ends of a signal with '%s' between", async (word) => {
  const { record, asked } = await told(
    ten(`Netzdruck: 4 mA ${word} 0 bar, 20 mA ${word} 16 bar\nTime;Netzdruck (mA)`, (d, i) => `${iso(d)};${8 + (i % 4)}`),
  );
  // 8 mA are a quarter of the way
  expect([asked, Math.round(record.channels[0].values[0])]).toEqual([[], 400_000]);
});

test("the step under a Dutch name", async () => {
  const { to, asked } = await told(
    table(
      "Start: 2024-05-06 10:00:00\nBemonsteringsperiode: 20 s\nDruk (bar)",
      rows(20, 20, (_, i) => bar(i)),
    ),
  );
  expect({ to, asked }).toEqual({ to: "2024-05-06T10:06:20Z", asked: [] });
});
