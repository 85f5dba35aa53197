import {
  at,
  b,
  comma,
  type DialectSample,
  f,
  flow,
  HEADING,
  iso,
  LITRE_PER_MINUTE,
  lines,
  plain,
  rows,
  START,
  sample,
} from "./dialect-readings";

const two = (n: number) => String(n).padStart(2, "0");
/** A stamp of several words: "14 Mar 2024 08:15:00 AM". */
const spoken = (i: number) => `14 Mar 2024 ${at(i).slice(11, 19)} AM`;
/** Set to the right, three blanks between the columns. */
const aligned = (cells: readonly string[]) => cells.map((cell, k) => cell.padStart([26, 17, 15][k])).join("");

/** By the minute: 0815 of 14 March 2024, day 74 of its year (ISO 8601 ordinal date). */
const minute = (i: number) => new Date(START + 60_000 * i);
const clock = (d: Date) => `${two(d.getUTCHours())}${two(d.getUTCMinutes())}`;
const DIGITS = `${rows.length} rows by the minute`;
const THIRD = rows.length / 3;

/** Every ten minutes over the night in which Central European clocks go back at 01:00 UTC (IANA time zone database, Europe/Berlin, 27 October 2024). */
const summerTime = (i: number) => Date.UTC(2024, 9, 27, 0) + 600_000 * i;
const isSummer = (i: number) => summerTime(i) < Date.UTC(2024, 9, 27, 1);
const local = (i: number) => new Date(summerTime(i) + (isSummer(i) ? 7_200_000 : 3_600_000)).toISOString().slice(0, 19).replace("T", " ");

const vacuum = rows.map((i) => (60 + ((i * 7) % 23)) / 10);
const PASCAL_PER_INCH_OF_MERCURY = 3386.389; // NIST SP 811, App. B.8

/** Headings, stamps and lines parted in other ways than the rows of numbers around them, and blocks of rows parted from their place. */
export const PARTED_SAMPLES: readonly DialectSample[] = [
  sample(
    "units-behind-commas.csv",
    "The units stand behind bare commas, so that there are more headings than cells.",
    lines(
      "Time,Pressure, bar,Flow, L/min",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["Pressure, bar", "Flow, L/min"] },
  ),
  sample(
    "tabs-over-blanks.txt",
    "The headings are set apart by tabs, the rows by blanks.",
    lines(
      HEADING.split(",").join("\t"),
      rows.map((i) => `${iso(i).replace(" ", "T")}   ${b(i)}   ${f(i)}`),
    ),
  ),
  sample(
    "stamps-of-words.txt",
    "Columns set to the right, with stamps of several words.",
    lines(
      aligned(HEADING.split(",")),
      rows.map((i) => aligned([spoken(i), b(i), f(i)])),
    ),
  ),
  sample(
    "quoted-lines.csv",
    "Each row as a whole stands in quotes, lines of remarks among them do not.",
    lines(
      `"${HEADING.split(",").join(";")}"`,
      rows.slice(0, 9).map((i) => `"${iso(i)};${comma(b(i))};${comma(f(i))}"`),
      "# battery 3.6 V",
      rows.slice(9).map((i) => `"${iso(i)};${comma(b(i))};${comma(f(i))}"`),
      "Page 1 / 1",
    ),
  ),
  sample(
    "clock-spelt-digits.csv",
    "Ten digits without marks, which could be Unix seconds; the heading spells what they are.",
    lines(
      "DDMMYYHHMM,Pressure (bar),Flow (L/min)",
      rows.map((i) => `140324${clock(minute(i))},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "clock-spelt-day-of-year.csv",
    `The year and its day in five digits, the time in four: ${DIGITS}.`,
    lines(
      "YYDDD HHMM,Pressure (bar),Flow (L/min)",
      rows.map((i) => `24074 ${clock(minute(i))},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "clock-block-out-of-place.csv",
    "A block of rows stands behind the rows that follow it in time: it fills the hole that they leave.",
    lines(
      HEADING,
      [...rows.slice(0, THIRD), ...rows.slice(2 * THIRD), ...rows.slice(THIRD, 2 * THIRD)].map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "suction-vacuum.csv",
    "A vacuum in numbers above 0, as its gauges show it: the larger, the lower the pressure.",
    lines(
      "Time,Suction vacuum (inHg),Flow (L/min)",
      rows.map((i) => `${iso(i)},${vacuum[i].toFixed(1)},${f(i)}`),
    ),
    {
      headings: ["Suction vacuum (inHg)", "Flow (L/min)"],
      values: [vacuum.map((v) => -v * PASCAL_PER_INCH_OF_MERCURY), flow.map((v) => v * LITRE_PER_MINUTE)],
      questions: ["reference:Suction vacuum (inHg)"],
    },
  ),
  sample(
    "signal-around-zero.csv",
    "Volts of a signal from -10 to 10 V; what it stands for is told above the table.",
    lines(
      "Pressure: -10 to 10 V = 0 to 10 bar",
      "",
      "Time,Pressure (V),Flow (L/min)",
      rows.map((i) => `${iso(i)},${(2 * Number(b(i)) - 10).toFixed(2)},${f(i)}`),
    ),
    { headings: ["Pressure (V)", "Flow (L/min)"], values: plain.values, firstLine: 4 },
  ),
  sample(
    "clock-unix-and-thousandths.csv",
    "Unix seconds and their thousandths in two columns.",
    lines(
      "unix_s,ms,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${START / 1000 + Math.floor(i / 4)},${250 * (i % 4)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "clock-flag-of-summer-time.csv",
    "Local time, a column of 1 in summer time, and the zone of both above the table.",
    lines(
      "Clock: UTC+1, summer time where DST=1",
      "",
      "Time,DST,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${local(i)},${isSummer(i) ? 1 : 0},${b(i)},${f(i)}`),
    ),
    { firstInstant: new Date(summerTime(0)).toISOString(), firstLine: 4 },
  ),
];
