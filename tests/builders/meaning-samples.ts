import { b, bar, type DialectSample, f, flow, HEADING, iso, lines, plain, rows, sample } from "./dialect-readings";

/** Columns whose headings leave open, or say in an unusual way, what their numbers are. */
export const MEANING_SAMPLES: readonly DialectSample[] = [
  sample(
    "scale-in-unit.csv",
    "The unit carries a scale: only ten kilopascals a step give a pressure that a pump can make.",
    lines(
      "Time,Pressure (kPa x 10),Flow (0.1 L/min)",
      rows.map((i) => `${iso(i)},${(10 * bar[i]).toFixed(1)},${Math.round(10 * flow[i])}`),
    ),
    { headings: ["Pressure (kPa x 10)", "Flow (0.1 L/min)"] },
  ),
  sample(
    "per-cent-of-range.csv",
    "Per cent of a range that the heading names.",
    lines(
      "Time,Pressure (% of 10 bar),Flow (% of 0-100 L/min)",
      rows.map((i) => `${iso(i)},${(10 * bar[i]).toFixed(1)},${f(i)}`),
    ),
    { headings: ["Pressure (% of 10 bar)", "Flow (% of 0-100 L/min)"] },
  ),
  sample(
    "letters-for-places.csv",
    "An A at the end of a heading beside a B is a place and no ampere: the unit is asked.",
    lines(
      "Time,Pressure_A,Pressure_B",
      rows.map((i) => `${iso(i)},${b(i)},${b(i)}`),
    ),
    {
      headings: ["Pressure_A", "Pressure_B"],
      values: [plain.values[0], plain.values[0]],
      questions: ["unit:Pressure_A", "unit:Pressure_B"],
    },
  ),
  sample(
    "cells-left-out.csv",
    "Most rows leave out the last cell, where nothing new is known: the full ones are as wide as the headings.",
    lines(
      HEADING,
      rows.map((i) => (i % 4 === 0 ? `${iso(i)},${b(i)},${f(i)}` : `${iso(i)},${b(i)}`)),
    ),
    { values: [plain.values[0], plain.values[1].filter((_, i) => i % 4 === 0)] },
  ),
];
