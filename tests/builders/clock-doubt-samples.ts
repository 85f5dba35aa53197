import { at, b, comma, type DialectSample, f, lines, plain, rows, sample } from "./dialect-readings";

const stamped = (file: string, about: string, stamp: (i: number) => string, truth: Partial<DialectSample> = {}, heading = "Time") =>
  sample(
    file,
    about,
    lines(
      `${heading},Pressure (bar),Flow (L/min)`,
      rows.map((i) => `${stamp(i)},${b(i)},${f(i)}`),
    ),
    truth,
  );
/** Every minute from five to midnight. */
const late = (i: number) => new Date(Date.UTC(2024, 2, 14, 23, 55) + 60_000 * i);
const day = (i: number) => late(i).toISOString().slice(2, 10).replaceAll("-", "");
const clock = (i: number) => at(i).slice(11, 19);

/** Clocks that only a person can read to the end, and those that need a second look. */
export const CLOCK_DOUBT_SAMPLES: readonly DialectSample[] = [
  stamped("clock-place-zone.csv", "Every stamp ends in the place of its zone.", (i) => `2024-03-14 ${clock(i)} Europe/Berlin`, {
    firstInstant: "2024-03-14T07:15:00.000Z",
  }),
  stamped("clock-zone-asked.csv", "The zone is an abbreviation of two continents: asked.", (i) => `2024-03-14 ${clock(i)} CST`, {
    firstInstant: "2024-03-14T14:15:00.000Z",
    questions: ["time-zone"],
  }),
  stamped("clock-short-years-asked.csv", "One day of two digits each: the day or the year stands first.", (i) => `25.02.17 ${clock(i)}`, {
    firstInstant: "2017-02-25T08:15:00.000Z",
    questions: ["date-order"],
  }),
  stamped("clock-set-back-little.csv", "The clock is set back by two rows while the log runs on: asked.", (i) => at(i < 12 ? i : i - 2), {
    questions: ["clock"],
  }),
  stamped(
    "clock-epoch-in-heading.csv",
    "Seconds from an instant that the heading names, of a size that Unix seconds have too.",
    (i) => String((Date.parse(at(i)) - Date.UTC(2000, 0, 1)) / 1000),
    {},
    "Seconds since 2000-01-01 00:00:00",
  ),
  stamped(
    "clock-dotted-halves.csv",
    "Dots between the hours, a fraction of six places, and a half of the day.",
    (i) => `14-MAR-24 0${clock(i).replaceAll(":", ".").slice(1)}.000000 AM`,
  ),
  stamped("clock-year-before-colon.csv", "A colon between the year of two digits and the time.", (i) => `14MAR24:${clock(i)}`),
  stamped(
    "clock-weekday-settles.csv",
    "Day and month could change places; the day of the week before them says which is which.",
    (i) => `Mon 05/06/2023 ${clock(i)}`,
    {
      firstInstant: "2023-06-05T08:15:00.000Z",
    },
  ),
  stamped(
    "clock-one-stamp.csv",
    "A spreadsheet cut the Unix milliseconds: all rows have one stamp, the interval is asked.",
    () => "1.71040E+12",
    {
      firstInstant: "2024-03-14T07:06:40.000Z",
      questions: ["interval"],
    },
  ),
  stamped(
    "clock-lost-zeros.csv",
    "Date and time in digits; the zeros in front are lost, so that after midnight minutes and seconds stand alone.",
    (i) => `${day(i)},${Number(late(i).toISOString().slice(11, 19).replaceAll(":", ""))}`,
    { firstInstant: "2024-03-14T23:55:00.000Z" },
    "Date,Time",
  ),
  sample(
    "clock-year-above.csv",
    "Month and day in one column, the time in another, the year above the table.",
    lines(
      "Year: 2024",
      "Date,Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => `03/14,${clock(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: 3 },
  ),
  sample(
    "clock-order-by-readout.csv",
    "The start could be read in two ways; the date of the read-out, written alike, in one only.",
    lines(
      "Start date: 08/11/2024",
      "Start time: 06:45:00",
      "Interval (s): 10",
      "Read out: 21/11/2024 16:20",
      "No.,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${i + 1},${b(i)},${f(i)}`),
    ),
    { firstLine: 6, firstInstant: "2024-11-08T06:45:00.000Z" },
  ),
  stamped(
    "clock-decimal-hours.csv",
    "The date beside hours with their fraction.",
    (i) => `2024-03-14,${(8.25 + i / 360).toFixed(5)}`,
    {},
    "Date,Hour (decimal)",
  ),
  stamped(
    "clock-direction-marks.csv",
    "Marks of the writing direction, which nobody sees, inside the dates.",
    (i) => `\u200e3/\u200e14/\u200e2024 \u200e${clock(i)}`,
  ),
  stamped("clock-time-first.csv", "The time stands before its date.", (i) => `${clock(i)} 14-03-2024`),
  sample(
    "clock-halves-and-commas.csv",
    "Halves of the day speak for the month first, decimal commas for the day: asked.",
    lines(
      "Time;Pressure (bar);Flow (L/min)",
      rows.map((i) => `06/05/2023 ${clock(i)} AM;${comma(b(i))};${comma(f(i))}`),
    ),
    { firstInstant: "2023-06-05T08:15:00.000Z", questions: ["date-order"] },
  ),
  stamped("clock-in-brackets.csv", "Every stamp stands in brackets.", (i) => `[2024-03-14 ${clock(i)}]`),
  sample(
    "clock-start-and-stop.csv",
    "No time column: start, stop and the number of samples above the table give the interval.",
    lines(
      "Start: 2024-03-14 08:15:00",
      "Stop: 2024-03-14 08:18:50",
      "Samples: 24",
      "Pressure (bar),Flow (L/min)",
      rows.map((i) => `${b(i)},${f(i)}`),
    ),
    { firstLine: 5 },
  ),
  stamped(
    "clock-received-and-measured.csv",
    "Two stamps a row: that of the transmission stands still for many rows.",
    (i) => `2024-03-14 0${9 + Math.floor(i / 24)}:00:00,2024-03-14 ${clock(i)}`,
    {},
    "received_at,measured_at",
  ),
  stamped(
    "clock-day-zero.csv",
    "A data base writes the date with a midnight and the time with its day 0.",
    (i) => `14/03/2024 00:00:00,30/12/1899 ${clock(i)}`,
    {},
    "Date,Time",
  ),
  stamped(
    "clock-zone-column.csv",
    "The place of the zone in a column of its own.",
    (i) => `14/03/2024 ${clock(i)},Europe/Madrid`,
    {
      firstInstant: "2024-03-14T07:15:00.000Z",
    },
    "Fecha,Zona",
  ),
  stamped("clock-stands-still.csv", "The clock stands still for some rows and then leaps to the right time.", (i) =>
    at(i >= 8 && i < 14 ? 8 : i),
  ),
  stamped(
    "clock-offset-column.csv",
    "The offset from UTC in minutes, in a column of its own.",
    (i) => `2024-03-14 ${clock(i)},120`,
    { firstInstant: "2024-03-14T06:15:00.000Z" },
    "Time,UTC offset (min)",
  ),
  stamped(
    "clock-date-and-hour.csv",
    "Day numbers of a spreadsheet under a heading that names the hour, which is no unit of theirs.",
    (i) => ((Date.parse(at(i)) - Date.UTC(1899, 11, 30)) / 86_400_000).toFixed(8),
    {},
    "Jour et heure",
  ),
  stamped(
    "clock-day-of-1970.csv",
    "A program wrote the first day of its calendar before each time; the date stands beside it.",
    (i) => `${at(i).slice(0, 10)},1970-01-01 ${clock(i)}`,
    {},
    "Date,Time",
  ),
  sample(
    "clock-offset-asked.csv",
    'A 2 under "Zone" in every row may be the offset from UTC: asked.',
    lines(
      "Time,Zone,Pressure (bar),Flow (L/min)",
      rows.map((i) => `2024-03-14 ${clock(i)},2,${b(i)},${f(i)}`),
    ),
    { headings: ["Zone", ...plain.headings], values: [rows.map(() => 2), ...plain.values], questions: ["time-zone"] },
  ),
  stamped(
    "clock-rows-numbered.csv",
    "A letter that could be a speed stands over the numbers of the rows.",
    (i) => `${at(i)},${i + 1}`,
    { headings: ["n [-]", ...plain.headings], values: [rows.map((i) => i + 1), ...plain.values] },
    "Time,n [-]",
  ),
];
