import fc from "fast-check";

/** Cells by what they look like: numbers, instants, quotes, and what is none of them. */
const number = fc.oneof(
  fc.integer({ min: -1000, max: 100_000 }).map((n) => String(n / 100)),
  fc.integer().map((n) => (n / 1000).toFixed(3).replace(".", ",")),
  fc.double().map(String),
  fc.double({ min: -1e9, max: 1e9, noNaN: true }).map((n) => n.toExponential(3)),
  fc.constantFrom(
    "",
    "-",
    "NaN",
    "---",
    "#N/A",
    "1.2.3",
    "1,2,3",
    "+5",
    "5-",
    "(5)",
    "5 psi",
    "٣",
    "½",
    "1 000",
    "1'000",
    "0,",
    ".5",
    "5.",
  ),
);
const two = (n: number) => String(n).padStart(2, "0");
const stamp = fc
  .record({
    y: fc.constantFrom(0, 69, 70, 1899, 1900, 1969, 1970, 2000, 2024, 2038, 9999),
    mo: fc.nat(13),
    d: fc.nat(32),
    h: fc.nat(25),
    mi: fc.nat(60),
    s: fc.nat(61),
    form: fc.nat(9),
  })
  .map(({ y, mo, d, h, mi, s, form }) => {
    const clock = `${two(h)}:${two(mi)}:${two(s)}`;
    return [
      `${y}-${two(mo)}-${two(d)} ${clock}`,
      `${y}-${two(mo)}-${two(d)}T${clock}Z`,
      `${d}/${mo}/${y} ${h % 12}:${two(mi)}:${two(s)} ${h < 12 ? "AM" : "PM"}`,
      `${d}.${mo}.${two(y % 100)} ${clock}`,
      clock,
      `${h}:${two(mi)}`,
      String(Date.UTC(y, mo, d, h, mi, s) / 1000),
      String(25_569 + Date.UTC(y, mo, d, h) / 86_400_000),
      `${two(y % 100)}${two(mo)}${two(d)}`,
      `${h * 3600 + mi * 60 + s}`,
    ][form];
  });
/** Instants that follow each other, as a log has them, with a step of any kind. */
const rising = fc.record({
  from: fc.integer({ min: -1e9, max: 4e9 }),
  step: fc.double({ min: -10, max: 90_000, noNaN: true }),
  form: fc.nat(5),
});
const atOf = ({ from, step, form }: { from: number; step: number; form: number }, i: number) => {
  const at = new Date((from + Math.round(step * i * 1000) / 1000) * 1000);
  const iso = Number.isNaN(at.getTime()) ? "" : at.toISOString();
  return [iso, iso.slice(0, 19).replace("T", " "), iso.slice(11, 19), String(from + step * i), String(step * i), iso.slice(0, 10)][form];
};
const text = fc.string({ unit: "binary", maxLength: 12 });
const heading = fc.oneof(
  fc.constantFrom(
    "Time",
    "Date",
    "Pressure (psi)",
    "Pressure",
    "Flow gpm",
    "Flow [L/min]",
    "Speed Hz",
    "Current (A)",
    "Running",
    "Level",
    "",
    "Ch1",
    "°C",
    "4-20mA",
  ),
  // Long and wide forms, and columns that say something of another
  fc.constantFrom(
    "Unit",
    "Pressure unit",
    "Tag",
    "Name",
    "Value",
    "Quality",
    "Status",
    "Device",
    "Zone",
    "Offset",
    "Day",
    "Hour",
    "Start",
    "Stop",
    "Interval",
    "Year",
    "Counts",
    "Range",
    "Pressure 1",
    "Pressure 2",
    "No.",
  ),
  text,
  fc.constantFrom("__proto__", "constructor", "toString", "valueOf", "=1+1", "<b>", "a,b"),
);
const word = fc.constantFrom(
  "good",
  "bad",
  "ON",
  "off",
  "open",
  "bar",
  "psi",
  "gpm",
  "Pump 1",
  "P1",
  "Flow",
  "UTC",
  "+02:00",
  "CEST",
  "4..20 mA",
  "0-10 bar",
);
const cell = fc.oneof(
  { weight: 12, arbitrary: number },
  { weight: 4, arbitrary: stamp },
  { weight: 3, arbitrary: word },
  { weight: 2, arbitrary: text },
);

/** Tables that are nearly logs: any headings, delimiters, quotes and line ends, a column of instants among others or none. */
export const oddTable: fc.Arbitrary<Uint8Array> = fc
  .record({
    headings: fc.option(fc.array(heading, { minLength: 1, maxLength: 7 }), { freq: 8 }),
    rows: fc.array(fc.array(cell, { maxLength: 7 }), { maxLength: 60 }),
    clock: fc.option(rising, { freq: 6 }),
    repeat: fc.constantFrom(1, 1, 1, 5, 40),
    delimiter: fc.constantFrom(",", ";", "\t", "|", " ", "  ", ":"),
    quote: fc.constantFrom("", "", "", '"', "'"),
    end: fc.constantFrom("\n", "\n", "\r\n", "\r", "\n\n", "\r\r\n"),
    preamble: fc.array(text, { maxLength: 4 }),
    even: fc.boolean(),
  })
  .map(({ headings, rows, clock, repeat, delimiter, quote, end, preamble, even }) => {
    const width = headings?.length ?? 3;
    const line = (cells: readonly string[]) => cells.map((c) => quote + c + quote).join(delimiter);
    const body = Array.from({ length: rows.length * repeat }, (_, i) => {
      const cells = rows[i % rows.length];
      const even7 = even ? Array.from({ length: width }, (_, c) => cells[c % Math.max(1, cells.length)] ?? "") : cells;
      return line(clock === null ? even7 : [atOf(clock, i), ...even7.slice(1)]);
    });
    return new TextEncoder().encode([...preamble, ...(headings === null ? [] : [line(headings)]), ...body].join(end));
  });
