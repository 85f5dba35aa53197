import { at, b, bar, type DialectSample, f, flow, lines, plain, ROWS, rows, START, sample } from "./dialect-readings";

/** The same readings with a heading and a cell for the time of each row; no further column. */
const stamped = (
  file: string,
  about: string,
  heading: string,
  stamp: (i: number) => string,
  truth: Partial<DialectSample> = {},
  above = "",
) =>
  sample(
    file,
    about,
    above +
      lines(
        `${heading},Pressure (bar),Flow (L/min)`,
        rows.map((i) => `${stamp(i)},${b(i)},${f(i)}`),
      ),
    { firstLine: 2 + above.split("\n").length - 1, ...truth },
  );
const two = (n: number) => String(n).padStart(2, "0");
const ms = (i: number) => START + i * 10_000;
const utc = (i: number) => new Date(ms(i));
const local = (i: number, hours: number) => new Date(ms(i) + hours * 3_600_000).toISOString().slice(0, 19).replace("T", " ");
const dmy = (iso: string) => `${iso.slice(8, 10)}/${iso.slice(5, 7)}/${iso.slice(0, 4)}`;
const clock = (i: number) => at(i).slice(11, 19);
/** Days since the last day but one of 1899, as spreadsheets count. */
const serial = (i: number) => (ms(i) / 86_400_000 + 25_569).toFixed(8);
const since = (i: number, from: number) => {
  const s = from + 10 * i;
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};
/** Local time of Berlin over the end of summer time 2024-10-27, 01:00 UTC. */
const fold = (i: number) => {
  const instant = Date.UTC(2024, 9, 27, 0, 0, 0) + i * 300_000;
  const hours = instant < Date.UTC(2024, 9, 27, 1) ? 2 : 1;
  return new Date(instant + hours * 3_600_000).toISOString().slice(0, 19).replace("T", " ");
};
const MONTHS_OF_MARCH = {
  English: "March",
  German: "März",
  French: "mars",
  Spanish: "marzo",
  Portuguese: "março",
  Italian: "marzo",
  Dutch: "maart",
};

/** 1.0 is the first midnight of 2024. */
const dayOfYear = (i: number) => ((ms(i) - Date.UTC(2024, 0, 1)) / 86_400_000 + 1).toFixed(7);

/** One way of writing the time each, with its truth. */
export const CLOCK_SAMPLES: readonly DialectSample[] = [
  stamped("clock-iso-offset.csv", "ISO 8601 with an offset.", "Time", (i) => `${local(i, 2).replace(" ", "T")}+02:00`),
  stamped("clock-iso-basic.csv", "ISO 8601 basic form.", "Time", (i) => at(i).slice(0, 19).replace(/[-:]/g, "").concat("Z")),
  stamped("clock-iso-week.csv", "ISO 8601 week date: day 4 of week 11.", "Time", (i) => `2024-W11-4T${clock(i)}`),
  stamped("clock-iso-ordinal.csv", "ISO 8601 ordinal date: day 74 of a leap year.", "Time", (i) => `2024-074T${clock(i)}`),
  stamped("clock-day-first.csv", "Day before month, told by a day above 12.", "Time", (i) => `${dmy(at(i))} ${clock(i)}`),
  stamped("clock-month-first.csv", "Month before day, told by a day above 12.", "Time", (i) => `03/14/2024 ${clock(i)}`),
  stamped("clock-order-asked.csv", "Day and month that may change places: asked.", "Time", (i) => `04/03/2024 ${clock(i)}`, {
    firstInstant: "2024-03-04T08:15:00.000Z",
    questions: ["date-order"],
  }),
  stamped(
    "clock-order-by-midnight.csv",
    "Day and month told by going on over midnight.",
    "Time",
    (i) => (i < 12 ? `04/03/2024 23:58:${two(i * 5)}` : `05/03/2024 00:00:${two((i - 12) * 5)}`),
    // 23:58:55 is followed by 00:00:00: one row late by a minute
    { firstInstant: "2024-03-04T23:58:00.000Z" },
  ),
  ...Object.entries(MONTHS_OF_MARCH).map(([language, month]) =>
    stamped(`clock-month-${language.toLowerCase()}.csv`, `Month names in ${language}.`, "Time", (i) => `14 ${month} 2024 ${clock(i)}`),
  ),
  stamped("clock-halves.csv", "12-hour times with AM.", "Time", (i) => `03/14/2024 ${clock(i)} AM`),
  stamped("clock-halves-spaced.csv", "12-hour times with a. m., as in Spanish.", "Time", (i) => `14/03/2024 ${clock(i)} a. m.`),
  stamped("clock-two-columns.csv", "Date and time in columns of their own.", "Date,Time", (i) => `${dmy(at(i))},${clock(i)}`),
  stamped(
    "clock-six-columns.csv",
    "Year, month, day, hour, minute and second in a column each.",
    "Year,Month,Day,Hour,Minute,Second",
    (i) => `2024,3,14,8,${utc(i).getUTCMinutes()},${utc(i).getUTCSeconds()}`,
  ),
  stamped("clock-day-numbers.csv", "Day numbers of a spreadsheet.", "Date", serial),
  stamped("clock-unix-seconds.csv", "Unix seconds.", "Timestamp", (i) => String(ms(i) / 1000)),
  stamped("clock-unix-milliseconds.csv", "Unix milliseconds.", "Timestamp", (i) => String(ms(i))),
  stamped("clock-unix-microseconds.csv", "Unix microseconds.", "Timestamp", (i) => String(ms(i) * 1000)),
  stamped("clock-elapsed-seconds.csv", "Elapsed seconds.", "Time (s)", (i) => String(10 * i), { firstInstant: 0 }),
  stamped("clock-elapsed-over-a-day.csv", "Elapsed time that passes 24 hours.", "Elapsed", (i) => since(i, 86_340), { firstInstant: 0 }),
  stamped(
    "clock-elapsed-from-start.csv",
    "Elapsed time, its start above the table.",
    "Elapsed (s)",
    (i) => String(10 * i),
    {},
    "Start: 2024-03-14 08:15:00\n",
  ),
  sample(
    "clock-start-and-interval.csv",
    "No time column; start and interval above the table.",
    `Start: 2024-03-14 08:15:00\nInterval: 10 s\n${lines(
      "Pressure (bar),Flow (L/min)",
      rows.map((i) => `${b(i)},${f(i)}`),
    )}`,
    { firstLine: 4 },
  ),
  stamped("clock-zone-in-heading.csv", "The zone stands in the heading.", "Time (UTC+2)", (i) => local(i, 2)),
  stamped("clock-zone-above.csv", "The zone stands above the table.", "Time", (i) => local(i, 1), {}, "Time zone: Europe/Berlin\n"),
  stamped(
    "clock-summer-ends.csv",
    "Summer time ends within the log; the zone is named.",
    "Time",
    fold,
    { firstInstant: "2024-10-27T00:00:00.000Z" },
    "Time zone: Europe/Berlin\n",
  ),
  stamped(
    "clock-over-midnight.csv",
    "Times only, over midnight; the date stands above.",
    "Time",
    (i) => since(i, 86_340).replace(/^24/, "00"),
    { firstInstant: "2024-03-14T23:59:00.000Z" },
    "Date: 14.03.2024\n",
  ),
  stamped("clock-time-only.csv", "Times only and no date: asked.", "Time", clock, { firstInstant: 0, questions: ["start-time"] }),
  sample(
    "clock-newest-first.csv",
    "The newest row first.",
    lines(
      "Time,Pressure (bar),Flow (L/min)",
      rows.map((_, k) => ROWS - 1 - k).map((i) => `${at(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: ROWS + 1 },
  ),
  sample(
    "clock-out-of-order.csv",
    "Two rows have changed places.",
    lines(
      "Time,Pressure (bar),Flow (L/min)",
      rows.map((k) => (k === 7 ? 8 : k === 8 ? 7 : k)).map((i) => `${at(i)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "clock-duplicates.csv",
    "A row stands twice.",
    lines(
      "Time,Pressure (bar),Flow (L/min)",
      rows.flatMap((i) => (i === 5 ? [i, i] : [i])).map((i) => `${at(i)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "clock-reset.csv",
    "The clock falls back to its factory date: the rows go on by their interval.",
    lines(
      "Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${i < 14 ? at(i) : new Date(Date.UTC(2000, 0, 1) + (i - 14) * 10_000).toISOString()},${b(i)},${f(i)}`),
    ),
    { questions: ["clock"] },
  ),
  stamped("clock-julian-days.csv", "Julian days.", "Julian day", (i) => (ms(i) / 86_400_000 + 2_440_587.5).toFixed(7)),
  stamped("clock-modified-julian-days.csv", "Modified Julian days.", "MJD", (i) => (ms(i) / 86_400_000 + 40_587).toFixed(8)),
  stamped(
    "clock-day-of-year.csv",
    "The day of the year with the time as its fraction, the year above the table.",
    "Day of year",
    dayOfYear,
    {},
    "Year;2024\n",
  ),
  stamped("clock-day-of-year-asked.csv", "The day of the year, and no year anywhere: asked.", "DOY", dayOfYear, {
    firstInstant: 0,
    questions: ["start-time"],
  }),
  stamped(
    "clock-no-year.csv",
    "Stamps without their year, which the start above the table names.",
    "Time",
    (i) => `14.03. ${clock(i)}`,
    {},
    "Begin: 14 March 2024 08:15\n",
  ),
  stamped(
    "clock-seconds-of-day.csv",
    "A date, and the seconds of its day.",
    "Date,Seconds of day",
    (i) => `2024-03-14,${(ms(i) / 1000) % 86_400}`,
  ),
  stamped(
    "clock-hour-columns.csv",
    "A date, and hour, minute and second in columns of their own.",
    "Datum,Stunde,Minute,Sekunde",
    (i) => `14.03.2024,${clock(i).split(":").map(Number).join(",")}`,
  ),
  stamped(
    "clock-year-first-dots.csv",
    "Two digits each with dots, the year first: told by the midnight between the rows.",
    "Time",
    (i) =>
      `${at(i + 5660)
        .slice(2, 10)
        .replaceAll("-", ".")} ${clock(i + 5660)}`,
    { firstInstant: "2024-03-14T23:58:20.000Z" },
  ),
  stamped(
    "clock-hour-back.csv",
    "The clock is set back by an hour before the log begins: asked.",
    "Time",
    (i) => at(i < 14 ? i : i - 360),
    { questions: ["clock"] },
  ),
  stamped(
    "clock-no-year-words.csv",
    "Stamps of month, day and time as system logs write them; the year stands above the table.",
    "Time",
    (i) => `Mar 14 ${clock(i)}`,
    {},
    "Export;2024-03-16\n",
  ),
  stamped(
    "clock-day-of-year-and-time.csv",
    "The day of the year and the time of day, the year above the table.",
    "DOY,Time",
    (i) => `74,${clock(i)}`,
    {},
    "Year: 2024\n",
  ),
  stamped(
    "clock-date-columns.csv",
    "Year, month and day in columns of their own, the time as a whole.",
    "Year,Month,Day,Time",
    (i) => `2024,3,14,${clock(i)}`,
  ),
  stamped(
    "clock-stuck-date.csv",
    "The date stays while the time of day passes midnight.",
    "Date,Time",
    (i) => `14/03/2024,${clock(i + 5660)}`,
    { firstInstant: "2024-03-14T23:58:20.000Z" },
  ),
  sample(
    "clock-dates-between.csv",
    "Times of day in sections, the date of each in a line above it.",
    [14, 17]
      .flatMap((date, k) => [
        `Date: ${date}/03/2024`,
        "Time,Pressure (bar),Flow (L/min)",
        ...rows.slice(12 * k, 12 * k + 12).map((i) => `${clock(i)},${b(i)},${f(i)}`),
        "",
      ])
      .join("\n"),
    { firstLine: 3 },
  ),
  stamped(
    "clock-date-once.csv",
    "The date in a column of its own, only where it changes.",
    "Date,Time",
    (i) => `${i === 0 ? "2024-03-14" : ""},${clock(i)}`,
  ),
  sample(
    "clock-set-back.csv",
    "The clock is set back by a minute while the log runs on: the rows go on in their order, which setting is right is asked.",
    lines(
      "Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${at(i < 14 ? i : i - 7)},${b(i)},${f(i)}`),
    ),
    { questions: ["clock"] },
  ),
  stamped(
    "clock-samples-per-minute.csv",
    "Readings per minute above the table, no time column but a number of the row.",
    "Row",
    (i) => String(i + 1),
    {},
    "Begin: 14 March 2024 08:15:00\nReadings per minute: 6\n",
  ),
  sample(
    "counts-and-range.csv",
    "Counts of a converter; their span and the range stand above the table.",
    `Pressure: 0..4000 counts = 0..10 bar\n${lines(
      "Time,Pressure (counts)",
      rows.map((i) => `${at(i)},${Math.round(bar[i] * 400)}`),
    )}`,
    { headings: ["Pressure (counts)"], values: [plain.values[0]], firstLine: 3 },
  ),
  sample(
    "counts.csv",
    "Counts of a converter, only the range stands above the table: what a count is, is asked.",
    `Pressure range: 0..10 bar\n${lines(
      "Time,Pressure (counts)",
      rows.map((i) => `${at(i)},${Math.round(bar[i] * 400)}`),
    )}`,
    {
      headings: ["Pressure (counts)"],
      values: [bar.map((v) => Math.round(v * 400))],
      firstLine: 3,
      questions: ["range:Pressure (counts)"],
    },
  ),
  sample(
    "pulses.csv",
    "Pulses of a meter whose constant stands above the table.",
    `Meter constant: 10 L/pulse\n${lines(
      "Time,Pulses",
      rows.map((i) => `${at(i)},${Math.round(flow[i])}`),
    )}`,
    {
      headings: ["Pulses", "Flow from Pulses"],
      values: [flow.map((v) => Math.round(v) * 0.01), flow.map((v, i) => (i === 0 ? null : Math.round(v) * 0.001))],
      firstLine: 3,
    },
  ),
];
