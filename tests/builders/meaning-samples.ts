import { b, bar, comma, type DialectSample, f, flow, HEADING, iso, lines, plain, rows, sample } from "./dialect-readings";

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
  sample(
    "counts-and-what-they-stand-for.csv",
    "Counts of a converter whose two ends stand above the table with what they stand for.",
    lines(
      "AI0: discharge pressure, 0..27648 = 0..16 bar",
      "Time,AI0",
      rows.map((i) => `${iso(i)},${Math.round(bar[i] * 1728)}`),
    ),
    { headings: ["AI0"], values: [bar.map((v) => (Math.round(v * 1728) * 16e5) / 27648)], firstLine: 3 },
  ),
  sample(
    "loop-in-microamperes.csv",
    "A loop of 4-20 mA in microamperes, its range above the table.",
    lines(
      "P1: 4..20 mA = 0..10 bar",
      "Time,P1 (µA)",
      rows.map((i) => `${iso(i)},${Math.round(4000 + 1600 * bar[i])}`),
    ),
    { headings: ["P1 (µA)"], values: [plain.values[0]], firstLine: 3 },
  ),
  sample(
    "minus-behind.csv",
    "The minus of negative numbers stands behind them.",
    lines(
      "Time,Suction pressure (bar),Flow (L/min)",
      rows.map((i) => `${iso(i)},0.${10 + i}-,${f(i)}`),
    ),
    { headings: ["Suction pressure (bar)", "Flow (L/min)"], values: [rows.map((i) => -1e3 * (10 + i)), plain.values[1]] },
  ),
  sample(
    "further-columns.csv",
    "The headings come again in mid-file with one column more.",
    lines(
      "Time,Pressure (bar)",
      rows.slice(0, 12).map((i) => `${iso(i)},${b(i)}`),
      HEADING,
      rows.slice(12).map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { values: [plain.values[0], plain.values[1].map((value, i) => (i < 12 ? null : value))] },
  ),
  sample(
    "words-between.csv",
    "Most columns are words, so that blanks would part the rows better than commas.",
    lines(
      "Time,Place,Person,Remark,Pressure (bar)",
      rows.map((i) => `${iso(i)},a,b,c,${b(i)}`),
    ),
    { headings: ["Pressure (bar)"], values: [plain.values[0]] },
  ),
  sample(
    "below-the-limit.csv",
    "What a meter cannot tell is written as a limit: no reading.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${b(i)},${i % 3 === 0 ? f(i) : "<0.5"}`),
    ),
    { values: [plain.values[0], plain.values[1].map((value, i) => (i % 3 === 0 ? value : null))] },
  ),
  sample(
    "one-word-known.csv",
    "Of the two words of a running flag one is no usual word: it is the opposite of the other.",
    lines(
      "Time,Pressure (bar),Pumpe",
      rows.map((i) => `${iso(i)},${b(i)},${i % 5 < 2 ? "Betrieb" : "Pause"}`),
    ),
    { headings: ["Pressure (bar)", "Pumpe"], values: [plain.values[0], rows.map((i) => (i % 5 < 2 ? 1 : 0))] },
  ),
  sample(
    "mark-or-blank.csv",
    "A pump has an x where it runs and a blank where it stands: the x is taken for running, and it is asked.",
    lines(
      "Time,Pressure (bar),Pump,Flow (L/min)",
      rows.map((i) => `${iso(i)},${b(i)},${i % 5 < 2 ? "x" : ""},${f(i)}`),
    ),
    {
      headings: ["Pressure (bar)", "Pump", "Flow (L/min)"],
      values: [plain.values[0], rows.map((i) => (i % 5 < 2 ? 1 : 0)), plain.values[1]],
      questions: ["column-role:Pump"],
    },
  ),
  sample(
    "words-asked.csv",
    "Two letters take turns under the name of a machine: which of them says that it runs is asked.",
    lines(
      "Time,Pressure (bar),Pompe,Flow (L/min)",
      rows.map((i) => `${iso(i)},${b(i)},${i % 5 < 2 ? "M" : "A"},${f(i)}`),
    ),
    { questions: ["column-role:Pompe"] },
  ),
  sample(
    "length-of-what.csv",
    "Metres under a heading that does not say of what: a level or a head, asked.",
    lines(
      "Time,Pressure (bar),Sonde (m)",
      rows.map((i) => `${iso(i)},${b(i)},${b(i)}`),
    ),
    { headings: ["Pressure (bar)", "Sonde (m)"], values: [plain.values[0], bar], questions: ["column-role:Sonde (m)"] },
  ),
  sample(
    "minus-one-for-true.csv",
    "A running flag of 0 and -1.",
    lines(
      "Time,Pressure (bar),Pump on",
      rows.map((i) => `${iso(i)},${b(i)},${i % 5 < 2 ? -1 : 0}`),
    ),
    { headings: ["Pressure (bar)", "Pump on"], values: [plain.values[0], rows.map((i) => (i % 5 < 2 ? 1 : 0))] },
  ),
  sample(
    "units-row-again.csv",
    "The row of units comes again in mid-file with other units.",
    lines(
      "Time,Pressure,Flow",
      ",bar,L/min",
      rows.slice(0, 12).map((i) => `${iso(i)},${b(i)},${f(i)}`),
      "Time,Pressure,Flow",
      ",kPa,L/min",
      rows.slice(12).map((i) => `${iso(i)},${(100 * bar[i]).toFixed(0)},${f(i)}`),
    ),
    { headings: ["Pressure", "Flow"], firstLine: 3 },
  ),
  sample(
    "letters-for-units.csv",
    "One letter behind a blank is a unit where the words say its quantity; a level in words of one language.",
    lines(
      "Zeit,Motorleistung W,Behälterstand m",
      rows.map((i) => `${iso(i)},${1000 + i},${b(i)}`),
    ),
    { headings: ["Motorleistung W", "Behälterstand m"], values: [rows.map((i) => 1000 + i), bar] },
  ),
  sample(
    "longer-name-above.csv",
    "A line above the table is about a column whose name begins with that of another.",
    lines(
      "Pressure of suction: bar",
      "Pressure: mH2O",
      "Time,Pressure,Pressure of suction",
      rows.map((i) => `${iso(i)},${(10 * bar[i]).toFixed(1)},${b(i)}`),
    ),
    {
      headings: ["Pressure", "Pressure of suction"],
      values: [bar.map((v) => v * 98066.5), plain.values[0]],
      firstLine: 4,
    },
  ),
  sample(
    "units-in-two-ways.csv",
    "The heading names one unit and the row of units another: asked.",
    lines(
      "Time,Pressure,Flow (L/s)",
      ",bar,L/min",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["Pressure", "Flow (L/s)"], firstLine: 3, questions: ["unit:Flow (L/s)"] },
  ),
  sample(
    "unit-in-front.csv",
    "The unit stands before the name, and a flow is written in words of another language.",
    lines(
      "Time,bar(g) discharge,Caudal (lts/seg)",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["bar(g) discharge", "Caudal (lts/seg)"], values: [plain.values[0], flow.map((v) => v / 1000)] },
  ),
  sample(
    "headings-last.csv",
    "The file was turned round as a whole: the headings stand in its last line.",
    lines(
      rows.map((_, k) => rows.length - 1 - k).map((i) => `${iso(i)},${b(i)},${f(i)}`),
      HEADING,
    ),
    { firstLine: 24 },
  ),
  sample(
    "blank-rows-below.csv",
    "Many more rows of nothing but delimiters than rows of data.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
      Array.from({ length: 200 }, () => ",,"),
    ),
  ),
  sample(
    "decimal-changes.csv",
    "The decimal mark changes in mid-file, as when a logger is set to another language.",
    lines(
      HEADING.replaceAll(",", ";"),
      rows.map((i) => (i < 12 ? `${iso(i)};${b(i)};${f(i)}` : `${iso(i)};${comma(b(i))};${comma(f(i))}`)),
    ),
  ),
  sample(
    "repeated-row-numbers.csv",
    "Row numbers, one of them twice as its row is.",
    lines(
      `N.,${HEADING}`,
      rows.flatMap((i) => (i === 5 ? [i, i] : [i])).map((i) => `${i + 1},${iso(i)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "other-delimiter.csv",
    "The headings are parted by commas, the rows by semicolons.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)};${b(i)};${f(i)}`),
    ),
  ),
  sample(
    "units-as-headings.csv",
    "The headings are units and nothing else, one of them a single letter.",
    lines(
      "Time,bar,A",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["bar", "A"], values: [plain.values[0], flow] },
  ),
  sample(
    "long-form-with-states.csv",
    "One value a row, some of them words for on and off.",
    lines(
      "time,tag,value",
      rows.flatMap((i) => [`${iso(i)},PRESSURE_BAR,${b(i)}`, `${iso(i)},PUMP_RUN,${i % 5 < 2 ? "ON" : "OFF"}`]),
    ),
    {
      headings: ["PRESSURE_BAR", "PUMP_RUN"],
      values: [plain.values[0], rows.map((i) => (i % 5 < 2 ? 1 : 0))],
      rows: 2 * rows.length,
    },
  ),
  sample(
    "implied-decimals.csv",
    "The decimal mark is left out; how many decimals there are stands above the table.",
    lines(
      "Decimals: 2",
      "Time,Pressure (bar)",
      rows.map((i) => `${iso(i)},${Math.round(100 * bar[i])}`),
    ),
    { headings: ["Pressure (bar)"], values: [plain.values[0]], firstLine: 3 },
  ),
  sample(
    "status-behind.csv",
    "A word for the state of the reading behind each number, and a column of quality bits.",
    lines(
      "Time,Pressure (bar),Q,Flow (L/min)",
      rows.map((i) => `${iso(i)},${b(i)} [ok],192,${f(i)}`),
    ),
    { headings: ["Pressure (bar)", "Q", "Flow (L/min)"], values: [plain.values[0], rows.map(() => 192), plain.values[1]] },
  ),
  sample(
    "units-beside-names.csv",
    "The unit of a column heads a column of nothing beside it.",
    lines(
      "Time,Pressure,bar,Flow,L/min",
      rows.map((i) => `${iso(i)},${b(i)},,${f(i)},`),
    ),
    { headings: ["Pressure", "Flow"] },
  ),
  sample(
    "further-column-between.csv",
    "The headings come again in mid-file with a new column between the others.",
    lines(
      HEADING,
      rows.slice(0, 10).map((i) => `${iso(i)},${b(i)},${f(i)}`),
      "Time,Power (W),Pressure (bar),Flow (L/min)",
      rows.slice(10).map((i) => `${iso(i)},${700 + i},${b(i)},${f(i)}`),
    ),
    {
      headings: ["Pressure (bar)", "Flow (L/min)", "Power (W)"],
      values: [...plain.values, rows.map((i) => (i < 10 ? null : 700 + i))],
    },
  ),
];
