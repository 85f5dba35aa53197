import { b, comma, type DialectSample, f, HEADING, iso, lines, plain, rows, START, sample } from "./dialect-readings";

const HOURS = [0, 4, 8, 12, 16, 20];
const days = rows.slice(0, rows.length / HOURS.length);
const date = (day: number) => new Date(START + 86_400_000 * day).toISOString().slice(0, 10);
const hour = (h: number) => `${String(h).padStart(2, "0")}:00`;
/** Every fourth hour of four days. */
const spread = { headings: ["Pressure (bar)"], values: [plain.values[0]], firstInstant: "2024-03-14T00:00:00.000Z" };

/** Every ten seconds from two minutes to midnight. */
const late = (i: number) => new Date(Date.UTC(2024, 2, 14, 23, 58) + 10_000 * i).toISOString().slice(0, 19).replace("T", " ");

/** Tables laid out for the eye of a person, as spreadsheets and reports have them. */
export const SPREAD_SAMPLES: readonly DialectSample[] = [
  sample(
    "hours-across.csv",
    "A row a day with its hours across; what is measured stands over them.",
    lines(
      `;Pressure (bar)${";".repeat(HOURS.length)}`,
      `Date;${HOURS.map(hour).join(";")};Mean`,
      days.map((day) => `${date(day)};${HOURS.map((_, k) => comma(b(HOURS.length * day + k))).join(";")};3,95`),
    ),
    { ...spread, firstLine: 3 },
  ),
  sample(
    "days-across.csv",
    "A row an hour of the day with the days across.",
    lines(
      `Pressure (bar),${days.map(date).join(",")}`,
      HOURS.map((h, k) => `${hour(h)},${days.map((day) => b(HOURS.length * day + k)).join(",")}`),
    ),
    spread,
  ),
  sample(
    "sheet-letters.csv",
    "The letters and the row numbers of a spreadsheet were exported with its cells.",
    lines(
      ",A,B,C",
      `1,${HEADING}`,
      rows.map((i) => `${i + 2},${iso(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: 3 },
  ),
  sample(
    "values-in-brackets.txt",
    "The rows are lists of values in a statement for a data base.",
    lines(
      "INSERT INTO `log` (`time`,`pressure_bar`,`flow_l_min`) VALUES",
      rows.map((i) => `('${iso(i)}',${b(i)},${f(i)})${i + 1 < rows.length ? "," : ";"}`),
    ),
    { headings: ["pressure_bar", "flow_l_min"] },
  ),
  sample(
    "ditto-marks.csv",
    "A quote alone in its cell says the same date as above, over midnight too.",
    lines(
      "Date;Time;Pressure (bar);Flow (L/min)",
      rows.map((i) => {
        const [date, time] = late(i).split(" ");
        return `${i === 0 || time === "00:00:00" ? date : '"'};${time};${b(i)};${f(i)}`;
      }),
    ),
    { firstInstant: "2024-03-14T23:58:00.000Z" },
  ),
  sample(
    "legend-above.csv",
    "Letters of columns are explained above the table.",
    lines(
      "P1 = Discharge pressure (bar)",
      "P2 = Flow of the booster (L/min)",
      "",
      HEADING.replace(/Pressure.*/, "P1,P2"),
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["P1", "P2"], firstLine: 5 },
  ),
];
