import { describe, expect, test } from "vitest";
import { MAY_6 as day, hms, iso, bar as p, rows, table, told, two } from "../../../builders/log-rows";

const dmy = (d: Date, mark = "/") => [two(d.getUTCDate()), two(d.getUTCMonth() + 1), d.getUTCFullYear()].join(mark);
const mdy = (d: Date, mark = "/") => [two(d.getUTCMonth() + 1), two(d.getUTCDate()), d.getUTCFullYear()].join(mark);
const pm = (d: Date) =>
  `${d.getUTCHours() % 12 || 12}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())} ${d.getUTCHours() < 12 ? "AM" : "PM"}`;

type Puzzle = readonly [name: string, text: string, from: string, to: string, asked?: readonly string[], file?: string];
const A = "2024-05-06T10:00:00Z";
const B = "2024-05-06T10:03:10Z"; // twenty rows, ten seconds apart
const H = "Time,Pressure (bar)";

const PUZZLES: readonly Puzzle[] = [
  [
    "ISO with T",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "ISO with blank and Z",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(d).replace("T", " ")}Z,${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "ISO basic",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(d).replace(/[-:]/g, "")},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "fourteen digits",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(d).replace(/[-:T]/g, "")},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "ISO with milliseconds after a comma",
    table(
      "Time;Pressure (bar)",
      rows(20, 10, (d, i) => `${iso(d)},000;${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "ISO with an offset",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(new Date(d.getTime() + 7200e3))}+02:00,${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "week dates",
    table(
      H,
      rows(20, 10, (d, i) => `2024-W19-1T${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "ordinal dates",
    table(
      H,
      rows(20, 10, (d, i) => `2024-127T${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "slashes, year first",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(d).slice(0, 10).replaceAll("-", "/")} ${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "dots, day first",
    table(
      "Zeit;Druck [bar]",
      rows(20, 10, (d, i) => `${dmy(d, ".")} ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "dots, two-digit year",
    table(
      "Zeit;Druck [bar]",
      rows(20, 10, (d, i) => `${dmy(d, ".").replace("2024", "24")} ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "month first, twelve hours, in doubt",
    table(
      "Time,Pressure (psi)",
      rows(20, 10, (d, i) => `${mdy(d)} ${pm(d)},${50 + i}`),
    ),
    A,
    B,
    ["date-order"],
  ],
  [
    "month first, day above 12",
    table(
      H,
      rows(20, 10, (d, i) => `${mdy(d)} ${hms(d)},${p(i)}`, day + 36_000 + 14 * 86_400),
    ),
    "2024-05-20T10:00:00Z",
    "2024-05-20T10:03:10Z",
  ],
  [
    "day first over midnight",
    table(
      H,
      rows(20, 600, (d, i) => `${dmy(d)} ${hms(d)},${p(i)}`, day + 82_800),
    ),
    "2024-05-06T23:00:00Z",
    "2024-05-07T02:10:00Z",
  ],
  [
    "month first over midnight",
    table(
      H,
      rows(20, 600, (d, i) => `${mdy(d)} ${hms(d)},${p(i)}`, day + 82_800),
    ),
    "2024-05-06T23:00:00Z",
    "2024-05-07T02:10:00Z",
  ],
  [
    "form of the date in the heading",
    table(
      "Timestamp (DD/MM/YYYY hh:mm:ss),Pressure (bar)",
      rows(20, 10, (d, i) => `${dmy(d)} ${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "form of the date in the preamble",
    table(
      `Date format: MM/DD/YYYY\n\n${H}`,
      rows(20, 10, (d, i) => `${mdy(d)} ${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "the file's name tells the date",
    table(
      H,
      rows(20, 10, (d, i) => `${mdy(d)} ${hms(d)},${p(i)}`),
    ),
    A,
    B,
    [],
    "pump_2024-05-06.csv",
  ],
  [
    "the date of the export tells the order",
    table(
      `Exported: 2024-05-07 08:00\n${H}`,
      rows(20, 10, (d, i) => `${mdy(d)} ${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "month names, German",
    table(
      "Zeit;Druck (bar)",
      rows(20, 10, (d, i) => `6. Mai 2024 ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "month names, English short",
    table(
      H,
      rows(20, 10, (d, i) => `06-May-2024 ${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "month names, English with a comma, quoted",
    table(
      H,
      rows(20, 10, (d, i) => `"May 6, 2024 ${pm(d)}",${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "month names, French",
    table(
      "Date;Pression (bar)",
      rows(20, 10, (d, i) => `06 févr. 2024 ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    "2024-02-06T10:00:00Z",
    "2024-02-06T10:03:10Z",
  ],
  [
    "month names, Spanish",
    table(
      "Fecha;Presión (bar)",
      rows(20, 10, (d, i) => `6 de mayo de 2024 ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "month names, Portuguese",
    table(
      "Data;Pressão (bar)",
      rows(20, 10, (d, i) => `06/mai/2024 ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "month names, Italian",
    table(
      "Data;Pressione (bar)",
      rows(20, 10, (d, i) => `06-mag-24 ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "month names, Dutch",
    table(
      "Tijd;Druk (bar)",
      rows(20, 10, (d, i) => `6 mrt. 2024 ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    "2024-03-06T10:00:00Z",
    "2024-03-06T10:03:10Z",
  ],
  [
    "ctime",
    table(
      H,
      rows(20, 10, (d, i) => `Mon May  6 ${hms(d)} 2024,${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "a.m. and p.m.",
    table(
      H,
      rows(20, 10, (d, i) => `2024-05-06 ${pm(d).replace("AM", "a.m.").replace("PM", "p.m.")},${p(i)}`, day + 43_100),
    ),
    "2024-05-06T11:58:20Z",
    "2024-05-06T12:01:30Z",
  ],
  [
    "date and time apart",
    table(
      "Date,Time,Pressure (bar)",
      rows(20, 10, (d, i) => `${iso(d).slice(0, 10)},${hms(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "time before date",
    table(
      "Heure;Date;Pression (bar)",
      rows(20, 10, (d, i) => `${hms(d)};${dmy(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "date, time and half of day apart",
    table(
      "Date,Time,AM/PM,Pressure (bar)",
      rows(20, 10, (d, i) => `${iso(d).slice(0, 10)},${pm(d).split(" ")[0]},${pm(d).split(" ")[1]},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "time with dots",
    table(
      "Data;Ora;Pressione (bar)",
      rows(20, 10, (d, i) => `${dmy(d)};${hms(d).replaceAll(":", ".")};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "hours and minutes only",
    table(
      H,
      rows(20, 60, (d, i) => `${iso(d).slice(0, 16).replace("T", " ")},${p(i)}`),
    ),
    A,
    "2024-05-06T10:19:00Z",
  ],
  [
    "ten rows a minute under stamps of minutes",
    table(
      H,
      rows(60, 6, (d, i) => `${iso(d).slice(0, 16).replace("T", " ")},${p(i)}`),
    ),
    A,
    "2024-05-06T10:05:54Z",
  ],
  [
    "Unix seconds",
    table(
      "timestamp,Pressure (bar)",
      rows(20, 10, (d, i) => `${d.getTime() / 1000},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "Unix milliseconds",
    table(
      "ts,Pressure (bar)",
      rows(20, 10, (d, i) => `${d.getTime()},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "Unix microseconds",
    table(
      "epoch_us,Pressure (bar)",
      rows(20, 10, (d, i) => `${d.getTime()}000,${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "spreadsheet days",
    table(
      H,
      rows(20, 10, (d, i) => `${(d.getTime() / 864e5 + 25569).toFixed(6)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "spreadsheet days, decimal commas",
    table(
      "Datum;Druck (bar)",
      rows(20, 10, (d, i) => `${(d.getTime() / 864e5 + 25569).toFixed(5).replace(".", ",")};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "spreadsheet days since 1904",
    table(
      `Date system: 1904\n${H}`,
      rows(20, 10, (d, i) => `${(d.getTime() / 864e5 + 24107).toFixed(6)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "elapsed seconds",
    table(
      "Elapsed (s),Pressure (bar)",
      rows(20, 10, (_, i) => `${i * 10},${p(i)}`),
    ),
    "0",
    "190",
  ],
  [
    "elapsed minutes, rounded, with a start",
    table(
      "Start: 2024-05-06 10:00:00\nTime (min),Pressure (bar)",
      rows(20, 10, (_, i) => `${(i / 6).toFixed(2)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "elapsed hours with a German start",
    table(
      "Startzeit;06.05.2024 10:00:00\nLaufzeit [h];Druck [bar]",
      rows(20, 10, (_, i) => `${(i / 360).toFixed(5).replace(".", ",")};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "elapsed h:mm:ss beyond a day",
    table(
      "Elapsed time,Pressure (bar)",
      rows(20, 10, (_, i) => `26:${two(Math.floor(i / 6))}:${two((i % 6) * 10)},${p(i)}`),
    ),
    "0",
    "190",
  ],
  [
    "elapsed d hh:mm:ss",
    table(
      "Elapsed,Pressure (bar)",
      rows(20, 10, (_, i) => `1 02:${two(Math.floor(i / 6))}:${two((i % 6) * 10)},${p(i)}`),
    ),
    "0",
    "190",
  ],
  [
    "start and interval",
    table(
      "Start time: 2024-05-06 10:00:00\nInterval: 10 s\nPressure (bar),Flow (L/min)",
      rows(20, 10, (_, i) => `${p(i)},${i}`),
    ),
    A,
    B,
  ],
  [
    "start and interval in French",
    table(
      "Début : 06/05/2024 10:00:00\nIntervalle : toutes les 10 secondes\nPression (bar);Débit (l/min)",
      rows(20, 10, (_, i) => `${p(i).replace(".", ",")};${i},0`),
    ),
    A,
    B,
  ],
  [
    "numbered rows, start, interval as a time",
    table(
      "Start date,2024-05-06\nStart time,10:00:00\nSample interval,00:00:10\nNo.,Pressure (bar)",
      rows(20, 10, (_, i) => `${i + 1},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "start without an interval",
    table(
      "Logging started: 2024-05-06 10:00:00\nPressure (bar),Flow (L/min)",
      rows(20, 10, (_, i) => `${p(i)},${i}`),
    ),
    A,
    "2024-05-06T10:00:19Z",
    ["interval"],
  ],
  [
    "time of day over midnight, date above",
    table(
      "Date: 2024-05-06\nTime,Pressure (bar)",
      rows(20, 600, (d, i) => `${hms(d)},${p(i)}`, day + 82_800),
    ),
    "2024-05-06T23:00:00Z",
    "2024-05-07T02:10:00Z",
  ],
  [
    "time of day without any date",
    table(
      H,
      rows(20, 10, (d, i) => `${hms(d)},${p(i)}`),
    ),
    "0",
    "190",
    ["start-time"],
  ],
  [
    "zone in the heading",
    table(
      "Time (UTC+2),Pressure (bar)",
      rows(20, 10, (d, i) => `${iso(new Date(d.getTime() + 7200e3))},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "zone in the preamble, summer",
    table(
      `Zeitzone: Europe/Berlin\nZeit;Druck (bar)`,
      rows(20, 10, (d, i) => `${dmy(d, ".")} ${hms(new Date(d.getTime() + 7200e3))};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  ["newest first", table(H, rows(20, 10, (d, i) => `${iso(d)},${p(i)}`).reverse()), A, B],
  [
    "a tenth of a second",
    table(
      H,
      rows(20, 0.1, (d, i) => `${d.toISOString().slice(0, 23)},${p(i)}`),
    ),
    A,
    "2024-05-06T10:00:01.900Z",
  ],
  [
    "year, month, day, hour, minute, second in columns",
    table(
      "Year,Month,Day,Hour,Minute,Second,Pressure (bar)",
      rows(
        20,
        10,
        (d, i) =>
          `${d.getUTCFullYear()},${d.getUTCMonth() + 1},${d.getUTCDate()},${d.getUTCHours()},${d.getUTCMinutes()},${d.getUTCSeconds()},${p(i)}`,
      ),
    ),
    A,
    B,
  ],
  [
    "milliseconds in their own column",
    table(
      "Date,Time,ms,Pressure (bar)",
      rows(20, 0.25, (d, i) => `${iso(d).slice(0, 10)},${hms(d)},${d.getUTCMilliseconds()},${p(i)}`),
    ),
    A,
    "2024-05-06T10:00:04.750Z",
  ],
  [
    "UTC beside local time",
    table(
      "Local time,UTC time,Pressure (bar)",
      rows(20, 10, (d, i) => `${iso(new Date(d.getTime() + 7200e3))},${iso(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "a stamp and elapsed seconds",
    table(
      "Timestamp,Elapsed (s),Pressure (bar)",
      rows(20, 10, (d, i) => `${iso(d)},${i * 10},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "a record number before the stamp",
    table(
      "Record,TmStamp,Pressure (bar)",
      rows(20, 10, (d, i) => `${i},${iso(d)},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "midnight written without its time",
    table(
      H,
      rows(20, 600, (d, i) => `${dmy(d, ".")}${hms(d) === "00:00:00" ? "" : ` ${hms(d)}`},${p(i)}`, day + 82_800),
    ),
    "2024-05-06T23:00:00Z",
    "2024-05-07T02:10:00Z",
  ],
  [
    "seconds dropped at the full minute",
    table(
      H,
      rows(20, 10, (d, i) => `${iso(d).replace("T", " ").replace(/:00$/, "")},${p(i)}`),
    ),
    A,
    B,
  ],
  [
    "day and month without leading noughts",
    table(
      H,
      rows(
        20,
        10,
        (d, i) =>
          `${d.getUTCDate()}.${d.getUTCMonth() + 1}.${d.getUTCFullYear()} ${d.getUTCHours()}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())},${p(i)}`,
      ),
    ),
    A,
    B,
  ],
  [
    "weekday before the date",
    table(
      "Zeit;Druck (bar)",
      rows(20, 10, (d, i) => `Mo ${dmy(d, ".")} ${hms(d)};${p(i).replace(".", ",")}`),
    ),
    A,
    B,
  ],
  [
    "hours with an h",
    table(
      "Date;Heure;Pression (bar)",
      rows(20, 60, (d, i) => `${dmy(d)};${two(d.getUTCHours())}h${two(d.getUTCMinutes())};${p(i).replace(".", ",")}`),
    ),
    A,
    "2024-05-06T10:19:00Z",
  ],
];

describe("clock puzzles", () => {
  for (const [name, text, from, to, asked = [], file = "log.csv"] of PUZZLES)
    test(name, async () => {
      const found = await told(text, file);
      expect([found.from, found.to, found.rows.rejected, found.asked]).toEqual([from, to, 0, asked]);
    });
});
