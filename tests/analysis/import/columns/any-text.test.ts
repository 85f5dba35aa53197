import fc from "fast-check";
import { expect, test } from "vitest";
import { readClock } from "../../../../analysis/import/clock/read-clock";
import { settleClock } from "../../../../analysis/import/clock/settle-clock";
import { readColumns } from "../../../../analysis/import/columns/read-columns";
import { NO_CHOICES } from "../../../../analysis/import/import-log";

const piece = fc.constantFrom(
  "1",
  "12",
  "2024",
  "06.05.2024",
  "10:00:00",
  "-9999",
  "NaN",
  "bar",
  "psi",
  "4-20 mA",
  "=",
  "0-10",
  "Ch1",
  "Pressure",
  "(",
  ")",
  "[",
  "]",
  "/",
  "%",
  "Mai",
  "PM",
  "UTC+2",
  "every 10 s",
  "__proto__",
  "<script>",
  "\u0000",
  "Druck",
  "+",
  "*",
  "\\",
  "e",
  "é",
);
const text = fc.oneof(
  fc.string({ maxLength: 30 }),
  fc.array(piece, { maxLength: 5 }).map((parts) => parts.join(" ")),
  fc.array(piece, { maxLength: 4 }).map((parts) => parts.join("")),
);
const column = fc.record({ heading: text, unitsCell: fc.option(text), sample: fc.array(text, { minLength: 8, maxLength: 8 }) });

/** Whatever stands in a file, reading it ends, and what comes out is whole: rows are kept, rejected or counted as duplicates. */
test("any text in headings, cells and preamble is read or left, never thrown upon", () => {
  fc.assert(
    fc.property(
      fc.array(column, { minLength: 1, maxLength: 5 }),
      fc.array(text, { maxLength: 6 }),
      fc.constantFrom(".", ","),
      (made, preamble, decimal) => {
        const columns = made.map((c, index) => ({ ...c, index }));
        const context = { file: "log.csv", preamble, decimal: decimal as "." | ",", thousands: null };
        const readings = readColumns(columns, context, NO_CHOICES);
        expect(readings.length).toBe(columns.length);
        for (const r of readings)
          expect(Number.isFinite(r.factor) && Number.isFinite(r.offset) && r.certainty >= 0 && r.certainty <= 1).toBe(true);
        const clock = readClock(columns, context, NO_CHOICES);
        if (clock === null) return;
        const raw = Float64Array.from(columns[0].sample, (_, i) => clock.parse(clock.columns.map((c) => columns[c].sample[i])));
        const settled = settleClock(raw, clock, NO_CHOICES);
        expect(settled.times.length + settled.rejected.length + settled.duplicates).toBe(raw.length);
        for (let i = 1; i < settled.times.length; i++) expect(settled.times[i]).toBeGreaterThan(settled.times[i - 1]);
      },
    ),
    { numRuns: 700 },
  );
});
