import {
  BAR,
  b,
  bar,
  comma,
  type DialectSample,
  day,
  dotted,
  every,
  f,
  flow,
  HEADING,
  iso,
  latin,
  lines,
  MISSING,
  named,
  named2,
  plain,
  ROWS,
  rows,
  sample,
  table,
  time,
  utf16,
  without,
} from "./dialect-readings";

/** Code page 850 of the few letters that the sample holds, by the mapping table of the Unicode Consortium (CP850.TXT). */
const dos = (text: string) => Uint8Array.from(text, (letter) => ({ ö: 0x94, "³": 0xfc, "°": 0xf8 })[letter] ?? letter.charCodeAt(0));

/** Truth of a table with the readings of one device as they are and of another from the last to the first. */
const twoDevices = (key: string, first: string, second: string): Partial<DialectSample> => ({
  headings: [first, second].flatMap((name) => plain.headings.map((heading) => `${name} ${heading}`)),
  values: [...plain.values, ...plain.values.map((values) => [...values].reverse())],
  rows: 2 * ROWS,
  questions: [`column-role:${key}`],
});

export const DIALECT_SAMPLES: readonly DialectSample[] = [
  // Text
  sample("headings-first.csv", "Nothing: headings, then rows.", table(",", HEADING)),
  sample("byte-order-mark.csv", "UTF-8 with a byte-order mark.", `\ufeff${table(",", HEADING)}`),
  sample("utf-16-little.csv", 'UTF-16 with a mark, as spreadsheets save "Unicode text".', utf16(table("\t", named("\t")), true, true)),
  sample("utf-16-big-unmarked.csv", "UTF-16, big end first, no mark.", utf16(table(",", HEADING), false, false)),
  sample(
    "windows-1252.csv",
    "Degree sign and superscript three in Windows-1252.",
    latin(
      lines(
        "Zeit;Druck (bar);Durchfluss (m³/h);Temperatur (°C)",
        rows.map((i) => `${dotted(i)} ${time(i)};${comma(b(i))};${comma(f(i))};${comma(f(i))}`),
      ),
    ),
    {
      headings: ["Druck (bar)", "Durchfluss (m³/h)", "Temperatur (°C)"],
      values: [plain.values[0], flow.map((v) => v / 3600), flow.map((v) => v + 273.15)],
    },
  ),
  sample("carriage-returns.csv", "Lines end with CR alone.", table(",", HEADING).replaceAll("\n", "\r")),
  sample("doubled-returns.csv", "CR CR LF, from a text file copied in text mode.", table(",", HEADING).replaceAll("\n", "\r\r\n")),
  sample("nul-padding.csv", "The last block is filled with NUL bytes.", `${table(",", HEADING)}${"\0".repeat(300)}`),
  sample(
    "quoted-everything.csv",
    "Every cell in quotes.",
    every(",", (cell) => `"${cell}"`),
  ),
  sample(
    "quoted-decimal-comma.csv",
    "Commas between cells and in the quoted numbers.",
    every(",", (cell) => `"${/^\d+\.\d+$/.test(cell) ? comma(cell) : cell}"`),
  ),
  sample(
    "single-quotes.csv",
    "Cells in single quotes.",
    every(";", (cell) => `'${cell}'`),
  ),
  sample(
    "blanks-round-quotes.csv",
    "A blank before each opening quote.",
    every(", ", (cell) => `"${cell}"`),
  ),
  sample(
    "line-end-in-cell.csv",
    "A note with a line end, a delimiter and quotes inside its quotes.",
    lines(
      `${HEADING},Note`,
      rows.map((i) => `${iso(i)},${b(i)},${f(i)},${i === 5 ? '"first, then\nthe ""second"" line"' : ""}`),
    ),
  ),
  sample("line-end-in-heading.csv", "Headings with a line end inside.", table(",", 'Time,"Pressure\n(bar)","Flow\n(L/min)"'), {
    firstLine: 4,
  }),
  sample(
    "unclosed-quote.csv",
    "A quote that never closes costs its own cell only.",
    lines(
      `${HEADING},Note`,
      rows.map((i) => `${iso(i)},${b(i)},${f(i)},${i === 5 ? '"oops' : "ok"}`),
    ),
  ),
  sample(
    "inch-marks.csv",
    "Inch marks that are no quotes.",
    lines(
      `${HEADING},Pipe`,
      rows.map((i) => `${iso(i)},${b(i)},${f(i)},2" copper`),
    ),
  ),
  sample(
    "formula-guards.csv",
    'Values kept as text for a spreadsheet: ="4.20".',
    every(",", (cell) => (/^\d/.test(cell) ? `="${cell}"` : cell)),
  ),
  sample("cut-off.csv", "The file stops in the middle of a row.", `${table(",", HEADING)}${iso(0).slice(0, 12)}`, { rejects: [26] }),
  sample("trailing-delimiters.csv", "A delimiter at the end of every line.", table(",", HEADING).replaceAll("\n", ",\n")),
  sample(
    "ragged.csv",
    "Rows without their last cell, one row with a number too many.",
    lines(
      HEADING,
      rows.map((i) => (i % 5 === 3 ? `${iso(i)},${b(i)}` : i === 10 ? `${iso(i)},${b(i)},${f(i)},7.5` : `${iso(i)},${b(i)},${f(i)}`)),
    ),
    {
      rows: ROWS - 1,
      rejects: [12],
      values: [plain.values[0].filter((_, i) => i !== 10), without((i) => i % 5 === 3, 1).filter((_, i) => i !== 10)],
    },
  ),
  sample(
    "enormous-line.csv",
    "One line of garbage as long as a thousand rows.",
    lines(
      HEADING,
      rows.slice(0, 9).map((i) => `${iso(i)},${b(i)},${f(i)}`),
      "x".repeat(70_000),
      rows.slice(9).map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { rejects: [11] },
  ),
  // Delimiters
  sample("declared-delimiter.csv", "A first line sep=; for spreadsheets.", `sep=;\n${table(";", named(";"))}`, { firstLine: 3 }),
  sample(
    "tab-decimal-comma.tsv",
    "Tabs, decimal commas.",
    lines(
      named("\t"),
      rows.map((i) => `${iso(i)}\t${comma(b(i))}\t${comma(f(i))}`),
    ),
  ),
  sample(
    "framed-pipes.txt",
    "Pipes around every cell.",
    every(" | ", (cell) => cell)
      .split("\n")
      .map((line) => `| ${line} |`)
      .join("\n"),
  ),
  sample(
    "comma-for-both.csv",
    "An unquoted comma between cells and in numbers: told by the headings.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${comma(b(i))},${comma(f(i))}`),
    ),
  ),
  sample(
    "runs-of-spaces.txt",
    "Blanks between cells and inside the stamp under one heading.",
    lines(
      "Timestamp Pressure_bar Flow_L/min",
      rows.map((i) => `${iso(i)} ${b(i)}   ${f(i)}`),
    ),
    { headings: ["Pressure_bar", "Flow_L/min"] },
  ),
  sample(
    "fixed-width.txt",
    "Columns by place, one of them blank now and then.",
    lines(
      "Date       Time     Pressure   Flow",
      "                          bar  L/min",
      rows.map((i) => `${iso(i)} ${i % 4 === 1 ? " ".repeat(9) : b(i).padStart(9)} ${f(i).padStart(6)}`),
    ),
    { ...named2, firstLine: 3, values: [without((i) => i % 4 === 1, 0), plain.values[1]] },
  ),
  sample(
    "ruled.txt",
    "A ruling under headings that hold blanks.",
    lines(
      "Timestamp            Pressure (bar)   Flow (L/min)",
      "-------------------  --------------   ------------",
      rows.map((i) => `${iso(i)}  ${b(i).padEnd(14)}   ${f(i)}`),
    ),
    { firstLine: 3 },
  ),
  // Layout
  sample(
    "preamble.csv",
    "Serial, place and settings above the headings, some lines as wide as the table.",
    `Log of pump room;east;2\nSerial;00417;\n\nChannels;2\n${table(";", named(";"))}`,
    { firstLine: 6 },
  ),
  sample(
    "long-preamble.csv",
    "Sixty lines of settings.",
    `${rows
      .concat(rows)
      .map((i) => `Setting ${i};${i * 3}`)
      .join("\n")}\n${rows
      .slice(0, 11)
      .map((i) => `Note ${i}`)
      .join("\n")}\n${table(";", named(";"))}`,
    { firstLine: 61 },
  ),
  sample(
    "preamble-two-columns.csv",
    "Keys and values right above a table of two columns.",
    lines(
      "Site,Pump room",
      "Serial,4711",
      "Range,0-10",
      "Time,Pressure (bar)",
      rows.map((i) => `${iso(i)},${b(i)}`),
    ),
    { headings: ["Pressure (bar)"], values: [plain.values[0]], firstLine: 5 },
  ),
  sample(
    "units-row.csv",
    "Units in a row of their own.",
    lines(
      "Time,Pressure,Flow",
      ",bar,L/min",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { ...named2, firstLine: 3 },
  ),
  sample(
    "units-over-headings.csv",
    "Units in a row over the names.",
    lines(
      "[-];[bar];[L/min]",
      "Time;Pressure;Flow",
      rows.map((i) => `${iso(i)};${b(i)};${f(i)}`),
    ),
    { ...named2, firstLine: 3 },
  ),
  sample(
    "stacked-headings.csv",
    "A group over its members, units below.",
    lines(
      "Date/Time,Pump 1,",
      ",Pressure,Flow",
      ",bar,L/min",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["Pump 1 Pressure", "Pump 1 Flow"], firstLine: 4 },
  ),
  sample(
    "commented-headings.csv",
    "Headings in a comment line.",
    lines(
      "# made by hand",
      "# Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: 3 },
  ),
  sample("no-headings.csv", "No headings at all.", table(",", HEADING).split("\n").slice(1).join("\n"), {
    headings: ["column 2", "column 3"],
    values: [bar, flow],
    firstLine: 1,
    questions: ["column-role:column 2", "column-role:column 3"],
  }),
  sample(
    "comments-inside.csv",
    "Comment lines among the rows.",
    lines(
      HEADING,
      rows.flatMap((i) => [`${iso(i)},${b(i)},${f(i)}`, ...(i % 9 === 4 ? ["# battery low, 3.1 V"] : [])]),
    ),
  ),
  sample(
    "headings-again.csv",
    "The logger was started again and wrote all its head once more.",
    `Unit 4\nSerial,12\n\n${table(",", HEADING, 0, 12)}\nUnit 4\nSerial,12\n\n${table(",", HEADING, 12)}`,
    { firstLine: 5 },
  ),
  sample(
    "headings-moved.csv",
    "After the restart the columns stand in another order.",
    `${table(",", HEADING, 0, 12)}${lines(
      "Time,Flow (L/min),Pressure (bar)",
      rows.slice(12).map((i) => `${iso(i)},${f(i)},${b(i)}`),
    )}`,
  ),
  sample("footer.csv", "Statistics below the rows.", `${table(",", HEADING)}\nMin,3.80,18.0\nMax,4.40,25.8\nEnd of log\n`),
  sample(
    "table-before.csv",
    "A small table of statistics before the log.",
    `Channel,Min,Max\nPressure,3.8,4.4\nFlow,18,25.8\n\n${table(",", HEADING)}`,
    { firstLine: 6 },
  ),
  sample(
    "table-after.csv",
    "A second table below, of the same shape.",
    `${table(",", HEADING)}\nTime,Battery (V),Signal (%)\n${iso(0)},3.6,88\n${iso(5)},3.6,87\n`,
  ),
  sample(
    "side-by-side.csv",
    "A blank column and the time once more in the middle.",
    lines(
      "Time,Pressure (bar),,Time,Flow (L/min)",
      rows.map((i) => `${iso(i)},${b(i)},,${iso(i)},${f(i)}`),
    ),
  ),
  sample(
    "own-times.csv",
    "Two tables side by side, each with its own instants and length.",
    lines(
      "Time,Pressure (bar),,Time,Flow (L/min)",
      rows.map((i) => `${iso(i)},${b(i)},,${i < 12 ? `${iso(2 * i)},${f(i)}` : ","}`),
    ),
    { values: [plain.values[0], plain.values[1].slice(0, 12)] },
  ),
  sample(
    "described-headings.csv",
    "Names, then descriptions, then units.",
    lines(
      "Time;Pressure;Flow",
      "date and time;at the tank;main meter",
      ";bar;L/min",
      rows.map((i) => `${iso(i)};${b(i)};${f(i)}`),
    ),
    { headings: ["Pressure at the tank", "Flow main meter"], firstLine: 4 },
  ),
  sample(
    "opening-word.csv",
    "A line of one word between headings and rows.",
    lines(
      "Unit 7",
      HEADING,
      "DATA:",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: 4 },
  ),
  sample(
    "wrapped-lines.csv",
    "Every line as a whole in quotes.",
    every(",", (cell) => cell)
      .split("\n")
      .map((line) => `"${line}"`)
      .join("\n"),
  ),
  sample("more-headings.csv", "More headings than the rows have cells.", table(",", `${HEADING},Spare 1,Spare 2`)),
  sample(
    "long-form.csv",
    "One value a row, its channel and unit named beside it.",
    lines(
      "Time,Channel,Value,Unit",
      rows.flatMap((i) => [`${iso(i)},Pressure,${b(i)},bar`, `${iso(i)},Flow,${f(i)},L/min`]),
    ),
    { ...named2, rows: 2 * ROWS },
  ),
  sample(
    "long-form-own-units.csv",
    "One value a row; one channel writes another unit now and then.",
    lines(
      "Time,Channel,Value,Unit",
      rows.flatMap((i) => [
        `${iso(i)},Pressure,${i % 9 === 4 ? `${Math.round(1000 * bar[i])},mbar` : `${b(i)},bar`}`,
        `${iso(i)},Flow,${f(i)},L/min`,
      ]),
    ),
    { ...named2, rows: 2 * ROWS },
  ),
  sample(
    "long-form-blocks.csv",
    "One value a row, channel after channel.",
    lines(
      "Messstelle;Zeit;Wert",
      rows.map((i) => `Druck (bar);${iso(i)};${comma(b(i))}`),
      rows.map((i) => `Durchfluss (L/min);${iso(i)};${comma(f(i))}`),
    ),
    { headings: ["Druck (bar)", "Durchfluss (L/min)"], rows: 2 * ROWS },
  ),
  sample(
    "devices.csv",
    "Two pump rooms in turn, the place of each row in a column of its own.",
    lines(
      "Time,Place,Pressure (bar),Flow (L/min)",
      rows.flatMap((i) => [`${iso(i)},North,${b(i)},${f(i)}`, `${iso(i)},South,${b(ROWS - 1 - i)},${f(ROWS - 1 - i)}`]),
    ),
    twoDevices("Place", "North", "South"),
  ),
  sample(
    "devices-appended.csv",
    "The log of a second logger under that of the first, told apart by the serial number.",
    lines(
      "Serial no.,Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => `20417,${iso(i)},${b(i)},${f(i)}`),
      rows.map((i) => `20418,${iso(i)},${b(ROWS - 1 - i)},${f(ROWS - 1 - i)}`),
    ),
    twoDevices("Serial no.", "20417", "20418"),
  ),
  sample(
    "unit-columns.csv",
    "The unit of each value in the next column; the range of the pressure changes now and then.",
    lines(
      "Time,Pressure,Unit,Flow,Unit",
      rows.map((i) => `${iso(i)},${i % 9 === 4 ? `${Math.round(1000 * bar[i])},mbar` : `${b(i)},bar`},${f(i)},L/min`),
    ),
    named2,
  ),
  sample(
    "units-of-their-own.csv",
    "Units stuck to the values; one that changes its range writes another now and then.",
    lines(
      "Time,Pressure,Flow",
      rows.map((i) => `${iso(i)},${i % 9 === 4 ? `${Math.round(1000 * bar[i])} mbar` : `${b(i)} bar`},${f(i)} L/min`),
    ),
    named2,
  ),
  sample(
    "negative-in-brackets.csv",
    "Negative numbers in brackets, as bookkeepers write them.",
    lines(
      "Time,Suction (bar),Flow (L/min)",
      rows.map((i) => `${iso(i)},${i % 4 === 3 ? b(i) : `(${b(i)})`},${f(i)}`),
    ),
    { headings: ["Suction (bar)", "Flow (L/min)"], values: [plain.values[0].map((v, i) => (i % 4 === 3 ? v : -v)), plain.values[1]] },
  ),
  sample(
    "below-vacuum.csv",
    "One pressure far below a perfect vacuum: no reading.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${i === 9 ? "-1000" : b(i)},${f(i)}`),
    ),
    { values: [without((i) => i === 9, 0), plain.values[1]] },
  ),
  sample(
    "made-of-many.csv",
    "Under the names short units, under these how each value was made of many.",
    lines(
      '"SITE","A","one"',
      '"STAMP","NUMBER","Press_Avg","Flow_Avg"',
      '"TS","RN","bar","L/min"',
      '"","","Avg","Avg"',
      rows.map((i) => `"${iso(i)}",${i},${b(i)},${f(i)}`),
    ),
    { headings: ["Press_Avg", "Flow_Avg"], firstLine: 5 },
  ),
  sample(
    "three-headings.csv",
    "Headings over three rows: quantity, place, unit.",
    lines(
      "Date/Time,Pressure,Flow",
      "Main header,Discharge,Pump 1",
      ",bar,L/min",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["Pressure Discharge", "Flow Pump 1"], firstLine: 4 },
  ),
  sample(
    "blanks-and-words.txt",
    "Blanks between cells, a word at the end of each row, one heading over date and time.",
    lines(
      "Time                 P_bar    Q_lpm   State",
      rows.map((i) => `${iso(i)}  ${b(i).padEnd(8)} ${f(i).padEnd(7)} ${i % 3 === 0 ? "stop" : "run"}`),
    ),
    { headings: ["P_bar", "Q_lpm", "State"], values: [...plain.values, rows.map((i) => (i % 3 === 0 ? 0 : 1))] },
  ),
  sample(
    "headings-in-another-unit.csv",
    "Headings again in mid-file, the pressure in another unit from there on.",
    lines(
      HEADING,
      rows.slice(0, 12).map((i) => `${iso(i)},${b(i)},${f(i)}`),
      "Time,Pressure (kPa),Flow (L/min)",
      rows.slice(12).map((i) => `${iso(i)},${Math.round(100 * bar[i])},${f(i)}`),
    ),
  ),
  sample(
    "page-headers.txt",
    "Printed pages: a title and the headings again on each, units by their place.",
    [0, 1, 2]
      .map((k) =>
        lines(
          `PRESSURE RECORD      Page ${k + 1}`,
          "",
          "Date        Time      Pressure   Flow",
          "                           bar   L/min",
          rows.slice(8 * k, 8 * k + 8).map((i) => `${day(i)}  ${time(i)}  ${b(i).padStart(8)} ${f(i).padStart(7)}`),
        ),
      )
      .join("\f"),
    { ...named2, firstLine: 5 },
  ),
  sample(
    "hourly-means-below.csv",
    "A table of hourly means under the log, with instants like those of the log.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
      "",
      "Means",
      "Hour,Mean pressure (bar)",
      "2024-03-14 08:00:00,4.10",
      "2024-03-14 09:00:00,4.00",
    ),
  ),
  sample(
    "code-page-850.csv",
    "Degree, powers and umlauts in code page 850.",
    dos(
      lines(
        "Zeit;Förderdruck (bar);Volumenstrom (m³/h);Temp. (°C)",
        rows.map((i) => `${iso(i)};${comma(b(i))};${comma(f(i))};12,5`),
      ),
    ),
    {
      headings: ["Förderdruck (bar)", "Volumenstrom (m³/h)", "Temp. (°C)"],
      values: [plain.values[0], flow.map((v) => v / 3600), flow.map(() => 12.5 + 273.15)],
    },
  ),
  sample(
    "twice-decoded.csv",
    "Powers that were decoded wrongly before they were written again.",
    lines(
      "Time,Pressure (bar),Flow (mÂ³/h)",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["Pressure (bar)", "Flow (m³/h)"], values: [plain.values[0], flow.map((v) => v / 3600)] },
  ),
  sample(
    "page-characters.csv",
    "Powers written as pages write them.",
    lines(
      "Time,Pressure (bar),Flow (m&sup3;/h)",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["Pressure (bar)", "Flow (m³/h)"], values: [plain.values[0], flow.map((v) => v / 3600)] },
  ),
  sample(
    "slow-channel.csv",
    "A channel sampled three times as rarely.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${b(i)},${i % 3 === 0 ? f(i) : ""}`),
    ),
    { values: [plain.values[0], plain.values[1].filter((_, i) => i % 3 === 0)] },
  ),
  sample(
    "blanks-hold.csv",
    "A pump's contact beside the readings, in a cell only where it changed: a blank is the state before.",
    lines(
      `${HEADING},Pump running`,
      rows.map((i) => `${iso(i)},${b(i)},${f(i)},${i % 5 === 0 || i % 5 === 3 ? Number(i % 5 === 0) : ""}`),
    ),
    {
      headings: [...plain.headings, "Pump running"],
      values: [...plain.values, rows.flatMap((i) => (i % 5 === 0 ? [1] : i % 5 === 3 ? [0] : []))],
    },
  ),
  sample(
    "row-numbers.csv",
    "Row numbers under the heading #.",
    lines(
      `#,${HEADING}`,
      rows.map((i) => `${i + 1},${iso(i)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "unnamed-row-numbers.txt",
    "Row names that no heading names, as a statistics program writes them.",
    lines(
      '"Time" "Pressure (bar)" "Flow (L/min)"',
      rows.map((i) => `"${i + 1}" "${iso(i)}" ${b(i)} ${f(i)}`),
    ),
  ),
  // Numbers
  sample(
    "missing-marks.csv",
    "Twelve ways to say that there is no value.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${i % 2 === 1 ? (MISSING[(i >> 1) % MISSING.length] ?? "") : b(i)},${f(i)}`),
    ),
    { values: [without((i) => i % 2 === 1, 0), plain.values[1]] },
  ),
  sample(
    "rare-sentinel.csv",
    "-9999 once among the pressures.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${i === 13 ? "-9999" : b(i)},${f(i)}`),
    ),
    { values: [without((i) => i === 13, 0), plain.values[1]] },
  ),
  sample(
    "stuck-units.csv",
    "Units behind every number.",
    lines(
      "Time,Pressure,Flow",
      rows.map((i) => `${iso(i)},${b(i)} bar,${f(i)}L/min`),
    ),
    named2,
  ),
  sample(
    "signs-and-exponents.csv",
    "Leading plus and exponents.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},+${bar[i].toExponential(3)},${flow[i].toExponential(3).toUpperCase()}`),
    ),
  ),
  sample(
    "thousands.csv",
    "Thousands grouped by commas, decimal points.",
    lines(
      "Time;Pressure (mbar);Flow (L/h)",
      rows.map(
        (i) => `${iso(i)};${(bar[i] * 1000).toLocaleString("en", { minimumFractionDigits: 1 })};${(flow[i] * 100).toLocaleString("en")}`,
      ),
    ),
    { headings: ["Pressure (mbar)", "Flow (L/h)"], values: [plain.values[0], flow.map((v) => (v * 0.1) / 3600)] },
  ),
  sample(
    "three-decimals.csv",
    "A comma with three digits behind it everywhere: decimal, since no pump makes 4,200 bar.",
    lines(
      "Zeit;Druck (bar)",
      rows.map((i) => `${iso(i)};${comma((bar[i] + 0.001).toFixed(3))}`),
    ),
    { headings: ["Druck (bar)"], values: [bar.map((v) => (v + 0.001) * BAR)] },
  ),
  sample(
    "open-decimal.csv",
    "A comma with three digits behind it everywhere and no unit to settle it: asked.",
    lines(
      "Time;Reading",
      rows.map((i) => `${iso(i)};${comma((bar[i] + 0.001).toFixed(3))}`),
    ),
    { headings: ["Reading"], values: [bar.map((v) => v + 0.001)], questions: ["column-role:Reading", "decimal"] },
  ),
  sample(
    "bad-cell.csv",
    "A cell that is no number, in a row that is good otherwise.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${i === 7 ? "4.x" : b(i)},${f(i)}`),
    ),
    { values: [without((i) => i === 7, 0), plain.values[1]] },
  ),
  sample(
    "labelled-cells.txt",
    "No headings: every cell carries its own name.",
    lines(rows.map((i) => `${iso(i)}, pressure=${b(i)} bar, flow=${f(i)} L/min`)),
    { headings: ["pressure", "flow"], firstLine: 1 },
  ),
  sample(
    "six-digit-dates.csv",
    "Dates and times of six digits, over midnight, so that only day, month, year runs evenly.",
    lines(
      "Date,Time,Pressure (bar),Flow (L/min)",
      rows.map((i) => {
        const late = new Date(Date.UTC(2024, 2, 14, 23, 58, 0) + i * 10_000).toISOString();
        return `${late.slice(8, 10)}${late.slice(5, 7)}${late.slice(2, 4)},${late.slice(11, 19).replaceAll(":", "")},${b(i)},${f(i)}`;
      }),
    ),
    { firstInstant: "2024-03-14T23:58:00.000Z" },
  ),
  sample(
    "signal-and-range.csv",
    "A raw current whose heading names signal and range.",
    lines(
      "Time,Pressure 4-20mA 0-10bar,Flow (L/min)",
      rows.map((i) => `${iso(i)},${(4 + 1.6 * bar[i]).toFixed(3)},${f(i)}`),
    ),
    { headings: ["Pressure 4-20mA 0-10bar", "Flow (L/min)"] },
  ),
  sample(
    "units-in-preamble-list.csv",
    "A numbered list of names and units above the table.",
    lines(
      "Column;Name;Unit",
      "1;Discharge pressure;bar",
      "2;Flow;L/min",
      "",
      "Time;Discharge pressure;Flow",
      rows.map((i) => `${iso(i)};${b(i)};${f(i)}`),
    ),
    { headings: ["Discharge pressure", "Flow"], firstLine: 6 },
  ),
  sample(
    "units-in-preamble-line.csv",
    "A line of units above the table that leaves the time out.",
    lines(
      "# units: bar, L/min",
      "time,pressure,flow",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { headings: ["pressure", "flow"], firstLine: 3 },
  ),
  sample(
    "no-time-column.csv",
    "Neither a time column nor an interval: rows are counted, the interval is asked.",
    lines(
      "Pressure (bar),Flow (L/min)",
      rows.map((i) => `${b(i)},${f(i)}`),
    ),
    { firstInstant: 0, questions: ["interval"] },
  ),
  sample(
    "alarms-above.csv",
    "A short table of alarms, as wide as the log, stands above it.",
    lines(
      "Alarms",
      "Time,Code,Text",
      "2024-03-13 22:00:00,17,battery low",
      "2024-03-13 23:30:00,3,lid open",
      "",
      "Readings",
      table(",", HEADING).trimEnd(),
    ),
    { firstLine: 8 },
  ),
  sample(
    "halves-unfinished.csv",
    "12-hour times of which only an a or p is left, stuck to the time.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)}a,${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "halves-narrow-blank.csv",
    "12-hour times with a narrow no-break blank before AM, as newer system libraries write them.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)}\u202fAM,${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "two-digit-days.csv",
    "One row a day, years of two digits: only year, month, day gives days of one length.",
    lines(
      HEADING,
      rows.slice(0, 11).map((i) => `12/03/${String(i + 1).padStart(2, "0")},${b(i)},${f(i)}`),
    ),
    { values: plain.values.map((list) => list.slice(0, 11)), rows: 11, firstInstant: "2012-03-01T00:00:00.000Z" },
  ),
  sample(
    "strange-sentinel.csv",
    "A number that nobody uses as a mark stands twice, far from all readings: taken for missing, and asked.",
    lines(
      HEADING,
      rows.map((i) => `${iso(i)},${i % 9 === 4 ? "850.00" : b(i)},${f(i)}`),
    ),
    { values: [without((i) => i % 9 === 4, 0), plain.values[1]], questions: ["sentinel:Pressure (bar)"] },
  ),
  sample(
    "loop-in-amperes.csv",
    "A loop of 4-20 mA written in amperes, its range above the table.",
    lines(
      "Pressure: 4 mA = 0 bar, 20 mA = 10 bar",
      "Time,Pressure (A)",
      rows.map((i) => `${iso(i)},${((4 + 1.6 * bar[i]) / 1000).toFixed(6)}`),
    ),
    { headings: ["Pressure (A)"], values: [plain.values[0]], firstLine: 3 },
  ),
  sample(
    "loop-faults.csv",
    "A raw loop under a heading with its range; a broken wire and a shorted loop stand outside the live range.",
    lines(
      "Time,Pressure 4-20 mA = 0-10 bar",
      rows.map((i) => `${iso(i)},${i === 6 ? "3.200" : i === 7 ? "21.600" : (4 + 1.6 * bar[i]).toFixed(3)}`),
    ),
    { headings: ["Pressure 4-20 mA = 0-10 bar"], values: [without((i) => i === 6 || i === 7, 0)] },
  ),
  sample(
    "per-cent-of-span.csv",
    "A pressure in per cent of a span that nobody names: asked.",
    lines(
      "Time,Pressure (% FS)",
      rows.map((i) => `${iso(i)},${(10 * bar[i]).toFixed(1)}`),
    ),
    { headings: ["Pressure (% FS)"], values: [bar.map((v) => v / 10)], questions: ["range:Pressure (% FS)"] },
  ),
  sample(
    "types-under-headings.csv",
    "The names of the columns' types stand under the headings.",
    lines(
      HEADING,
      "datetime,float,float",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: 3 },
  ),
  sample(
    "statistics-under-headings.csv",
    "Least and greatest values stand between headings and rows.",
    lines(
      HEADING,
      "Min,3.80,18.0",
      "Max,4.40,25.8",
      rows.map((i) => `${iso(i)},${b(i)},${f(i)}`),
    ),
    { firstLine: 4 },
  ),
  sample(
    "commas-in-stamps.csv",
    "The stamp holds the delimiter, unquoted.",
    lines(
      HEADING,
      rows.map((i) => `Mar 14, 2024 ${time(i)},${b(i)},${f(i)}`),
    ),
  ),
  sample(
    "before-the-trigger.csv",
    "Elapsed time that counts from a trigger: the first rows are before it.",
    lines(
      HEADING.replace("Time", "Elapsed"),
      rows.map((i) => `${i < 3 ? "-" : ""}00:0${Math.floor(Math.abs(i - 3) / 6)}:${(Math.abs(i - 3) % 6) * 10 || "00"},${b(i)},${f(i)}`),
    ),
    { firstInstant: 0 },
  ),
  sample(
    "dates-only.csv",
    "Every row carries the same date and no time: counted from it, the interval asked.",
    lines(
      HEADING,
      rows.map((i) => `${day(i)},${b(i)},${f(i)}`),
    ),
    { firstInstant: "2024-03-14T00:00:00.000Z", questions: ["interval"] },
  ),
  sample(
    "high-and-low.csv",
    "A whole column of words that mark missing readings elsewhere.",
    lines(
      "Time,Pressure (bar),Pump running",
      rows.map((i) => `${iso(i)},${b(i)},${i % 5 < 2 ? "HIGH" : "LOW"}`),
    ),
    { headings: ["Pressure (bar)", "Pump running"], values: [plain.values[0], rows.map((i) => (i % 5 < 2 ? 1 : 0))] },
  ),
];
