import { describe, expect, test } from "vitest";
import { bar, hms, iso, MAY_6, rows, table, told, two } from "../../../builders/log-rows";

const H = "Time,Pressure (bar)";
const A = "2024-05-06T10:00:00Z";
const B = "2024-05-06T10:03:10Z";
type Oddity = readonly [name: string, text: string, from: string, to: string, asked: string];
const ten = (head: string, write: (d: Date, i: number) => string) => table(head, rows(20, 10, write));
const tick = (d: Date, days: number) => String(BigInt(d.getTime()) * 10_000n + BigInt(days) * 864_000_000_000n);
const ofDay = (d: Date) => d.getTime() / 1000 - MAY_6;

const ODDITIES: readonly Oddity[] = [
  ["two-digit parts in doubt", ten(H, (d, i) => `06-05-24 ${hms(d)},${bar(i)}`), A, B, "date-order"],
  [
    "a rate in hertz and a start",
    table(
      "Sample rate: 4 Hz\nStart: 2024-05-06 10:00:00\nPressure (bar),Flow (L/min)",
      rows(20, 1, (_, i) => `${bar(i)},${i}`),
    ),
    A,
    "2024-05-06T10:00:04.750Z",
    "",
  ],
  [
    "the unit of the interval in its name",
    ten("Sample interval (s),10\nStart,2024-05-06T10:00:00\n\nPressure (bar),Flow (L/min)", (_, i) => `${bar(i)},${i}`),
    A,
    B,
    "",
  ],
  // 621,355,968,000,000,000 ticks of 100 ns from the year 1 to 1970: 719,162 days
  ["tenths of microseconds since the year 1", ten(H, (d, i) => `${tick(d, 719_162)},${bar(i)}`), A, B, ""],
  [
    "a step and a day of its own in the heading",
    ten("Count (100 ns since 2000-01-01),Pressure (bar)", (d, i) => `${tick(d, -10_957)},${bar(i)}`),
    A,
    B,
    "",
  ],
  [
    "time from a start with a T",
    ten("Mission time,Pressure (bar)", (_, i) => `T+00:0${Math.floor(i / 6)}:${two((i % 6) * 10)},${bar(i)}`),
    "0",
    "190",
    "",
  ],
  [
    "alarms with their own stamps beside the first rows",
    ten("Elapsed (s),Pressure (bar),,Alarm,Text", (d, i) => `${10 * i},${bar(i)},,${i < 2 ? `${iso(d)},low` : ","}`),
    "0",
    "190",
    "",
  ],
  [
    "the hour that comes twice marked with A and B",
    table(
      "Zeit (Europe/Berlin);Druck (bar)",
      [
        "01:50",
        "02:00A",
        "02:10A",
        "02:20A",
        "02:30A",
        "02:40A",
        "02:50A",
        "02:00B",
        "02:10B",
        "02:20B",
        "02:30B",
        "02:40B",
        "02:50B",
        "03:00",
      ].map((at, i) => `27.10.2024 ${at};${bar(i).replace(".", ",")}`),
    ),
    "2024-10-26T23:50:00Z",
    "2024-10-27T02:00:00Z",
    "",
  ],
  ["a time without a unit", ten(H, (_, i) => `${i * 10},${bar(i)}`), "0", "190", "clock"],
  ["a time whose unit the interval settles", ten(`Interval: 10 s\n${H}`, (_, i) => `${i * 10},${bar(i)}`), "0", "190", ""],
  [
    "minutes and seconds by the heading",
    ten("Elapsed (mm:ss),Pressure (bar)", (_, i) => `${58 + Math.floor(i / 6)}:${two((i % 6) * 10)},${bar(i)}`),
    "0",
    "190",
    "",
  ],
  ["two fields beyond a day, in doubt", ten(H, (_, i) => `${58 + Math.floor(i / 6)}:${two((i % 6) * 10)},${bar(i)}`), "0", "190", "clock"],
  [
    "minutes and seconds that begin anew at the hour",
    ten(H, (_, i) => `${two((58 + Math.floor(i / 6)) % 60)}:${two((i % 6) * 10)}.0,${bar(i)}`),
    "0",
    "190",
    "",
  ],
  [
    "a start that reads both ways",
    ten("Start date: 06/05/2024\nStart time: 10:00:00\nElapsed (s),Pressure (bar)", (_, i) => `${i * 10},${bar(i)}`),
    A,
    B,
    "date-order",
  ],
  ["seconds before a trigger", ten("Time (s),Pressure (bar)", (_, i) => `${(i - 5) * 10},${bar(i)}`), "0", "190", ""],
  [
    "a date on the first row only",
    ten("Date,Time,Pressure (bar)", (d, i) => `${i === 0 ? "06.05.2024" : ""},${hms(d)},${bar(i)}`),
    A,
    B,
    "",
  ],
  ["small t and z", ten(H, (d, i) => `${iso(d).toLowerCase()}z,${bar(i)}`), A, B, ""],
  [
    "start and end of each interval",
    ten("Start,End,Pressure (bar)", (d, i) => `${iso(d)},${iso(new Date(d.getTime() + 10_000))},${bar(i)}`),
    A,
    B,
    "",
  ],
  ["seconds since 1904", ten(H, (d, i) => `${d.getTime() / 1000 + 2_082_844_800},${bar(i)}`), A, B, ""],
  ["times as digits", ten("Date,Time,Pressure (bar)", (d, i) => `20240506,${hms(d).replaceAll(":", "")},${bar(i)}`), A, B, ""],
  [
    "times as digits, noughts lost",
    table(
      "Date,Time,Pressure (bar)",
      rows(20, 10, (d, i) => `20240506,${Number(hms(d).replaceAll(":", ""))},${bar(i)}`, MAY_6 + 35_900),
    ),
    "2024-05-06T09:58:20Z",
    "2024-05-06T10:01:30Z",
    "",
  ],
  [
    "year, day of the year, hour and minute",
    table(
      "Year,DOY,HHMM,Pressure (bar)",
      rows(20, 60, (d, i) => `2024,127,${d.getUTCHours() * 100 + d.getUTCMinutes()},${bar(i)}`),
    ),
    A,
    "2024-05-06T10:19:00Z",
    "",
  ],
  ["fractions of the day, date above", ten(`Date: 2024-05-06\n${H}`, (d, i) => `${(ofDay(d) / 86_400).toFixed(6)},${bar(i)}`), A, B, ""],
  [
    "fractions of the day beside the date",
    ten("Date,Time,Pressure (bar)", (d, i) => `2024-05-06,${(ofDay(d) / 86_400).toFixed(6)},${bar(i)}`),
    A,
    B,
    "",
  ],
  [
    "day number and fraction in two columns",
    ten("Date,Time,Pressure (bar)", (d, i) => `45418,${(ofDay(d) / 86_400).toFixed(6)},${bar(i)}`),
    A,
    B,
    "",
  ],
  ["date and time as digits in one cell", ten(H, (d, i) => `20240506 ${hms(d).replaceAll(":", "")},${bar(i)}`), A, B, ""],
  ["digits with the year last, in doubt", ten("Date,Time,Pressure (bar)", (d, i) => `06052024,${hms(d)},${bar(i)}`), A, B, "date-order"],
  ["a colon between date and time", ten(H, (d, i) => `06/May/2024:${hms(new Date(d.getTime() + 7200e3))} +0200,${bar(i)}`), A, B, ""],
  [
    "halves without a blank",
    ten(H, (d, i) => `May 6 2024 ${d.getUTCHours()}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())}AM,${bar(i)}`),
    A,
    B,
    "",
  ],
  [
    "a zone as people name it",
    ten(`Time zone: Eastern Time\n${H}`, (d, i) => `${iso(new Date(d.getTime() - 4 * 3600e3))},${bar(i)}`),
    A,
    B,
    "",
  ],
  ["a zone that nobody knows", ten(`Time zone: Base camp\n${H}`, (d, i) => `${iso(d)},${bar(i)}`), A, B, "time-zone"],
  [
    "a column for the zone",
    ten("Date,Time,Zone,Pressure (bar)", (d, i) => `2024-05-06,${hms(new Date(d.getTime() + 7200e3))},CEST,${bar(i)}`),
    A,
    B,
    "",
  ],
  ["a rising column of no name for it", ten("X_Value,Pressure (bar)", (_, i) => `${(i * 10).toFixed(6)},${bar(i)}`), "0", "190", "clock"],
  ["rows that are only numbered", ten("No.,Pressure (bar)", (_, i) => `${i + 1},${bar(i)}`), "0", "19", "interval"],
  [
    "dates of calibration and export beside the start",
    ten(
      "Calibration date,2023-11-02\nExport date,2024-05-07 09:00\nStart date,2024-05-06\nStart time,10:00:00\nInterval,10 s\nPressure (bar),Flow (L/min)",
      (_, i) => `${bar(i)},${i}`,
    ),
    A,
    B,
    "",
  ],
  [
    "twelve hours without AM and PM",
    table(
      H,
      rows(
        400,
        600,
        (d, i) => `2024-05-${two(d.getUTCDate())} ${d.getUTCHours() % 12 || 12}:${two(d.getUTCMinutes())}:00,${bar(i)}`,
        MAY_6 + 40_200,
      ),
    ),
    "2024-05-06T11:10:00Z",
    "2024-05-09T05:40:00Z",
    "",
  ],
  ["sixths of a week date", ten(H, (d, i) => `2024-W19-1 ${hms(d)},${bar(i)}`), A, B, ""],
  ["an offset without minutes", ten(H, (d, i) => `${iso(new Date(d.getTime() - 5 * 3600e3))}-05,${bar(i)}`), A, B, ""],
  [
    "interval in German",
    ten(
      "Messintervall: alle 10 Sekunden\nBeginn der Messung: 06.05.2024, 10:00 Uhr\nDruck [bar];Durchfluss [l/min]",
      (_, i) => `${bar(i).replace(".", ",")};${i},0`,
    ),
    A,
    B,
    "",
  ],
  [
    "interval in Spanish",
    ten(
      "Intervalo de muestreo: cada 10 segundos\nInicio: 06/05/2024 10:00:00\nPresión [bar];Caudal [l/min]",
      (_, i) => `${bar(i).replace(".", ",")};${i},0`,
    ),
    A,
    B,
    "",
  ],
  [
    "interval in Dutch",
    ten(
      "Meetinterval: om de 10 seconden\nBegin: 6 mei 2024 10:00:00\nDruk [bar];Debiet [l/min]",
      (_, i) => `${bar(i).replace(".", ",")};${i},0`,
    ),
    A,
    B,
    "",
  ],
  [
    "interval in Italian",
    ten(
      "Intervallo: ogni 10 secondi\nInizio registrazione: 06/05/2024 10:00:00\nPressione [bar];Portata [l/min]",
      (_, i) => `${bar(i).replace(".", ",")};${i},0`,
    ),
    A,
    B,
    "",
  ],
  [
    "interval in Portuguese",
    ten(
      "Intervalo de amostragem: 10 s\nInício: 06/05/2024 10:00:00\nPressão [bar];Vazão [l/min]",
      (_, i) => `${bar(i).replace(".", ",")};${i},0`,
    ),
    A,
    B,
    "",
  ],
];

describe("odd clocks", () => {
  for (const [name, text, from, to, asked] of ODDITIES)
    test(name, async () => {
      const found = await told(text);
      expect([found.from, found.to, found.rows.rejected, found.rows.reordered, found.asked.join(" ")]).toEqual([from, to, 0, 0, asked]);
    });
});
