import { b, comma, type DialectSample, f, HEADING, iso, lines, plain, rows, START, sample } from "./dialect-readings";

const HOURS = [0, 4, 8, 12, 16, 20];
const days = rows.slice(0, rows.length / HOURS.length);
const date = (day: number) => new Date(START + 86_400_000 * day).toISOString().slice(0, 10);
const hour = (h: number) => `${String(h).padStart(2, "0")}:00`;
/** Every fourth hour of four days. */
const spread = { headings: ["Pressure (bar)"], values: [plain.values[0]], firstInstant: "2024-03-14T00:00:00.000Z" };

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
];
