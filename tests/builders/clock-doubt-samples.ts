import { at, b, type DialectSample, f, lines, rows, sample } from "./dialect-readings";

const stamped = (file: string, about: string, stamp: (i: number) => string, truth: Partial<DialectSample> = {}) =>
  sample(
    file,
    about,
    lines(
      "Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${stamp(i)},${b(i)},${f(i)}`),
    ),
    truth,
  );
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
];
