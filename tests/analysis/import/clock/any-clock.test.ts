import fc from "fast-check";
import { expect, test } from "vitest";
import { columnsOf, contextOf, readBack } from "../../../builders/log-columns";
import { two } from "../../../builders/log-rows";

const hms = (d: Date) => `${two(d.getUTCHours())}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())}`;
const twelve = (d: Date) =>
  `${d.getUTCHours() % 12 || 12}:${two(d.getUTCMinutes())}:${two(d.getUTCSeconds())} ${d.getUTCHours() < 12 ? "am" : "PM"}`;
const [D, M, Y] = [(d: Date) => d.getUTCDate(), (d: Date) => d.getUTCMonth() + 1, (d: Date) => d.getUTCFullYear()];

/** Ways to write an instant in a row; cells set apart by "|". */
const FORMS: Readonly<Record<string, { readonly head: string; write(d: Date): string }>> = {
  iso: { head: "Time", write: (d) => d.toISOString().slice(0, 19) },
  dmySlash: { head: "Time", write: (d) => `${two(D(d))}/${two(M(d))}/${Y(d)} ${hms(d)}` },
  mdySlash: { head: "Time", write: (d) => `${M(d)}/${D(d)}/${Y(d)} ${twelve(d)}` },
  dmyDash2: { head: "Time", write: (d) => `${two(D(d))}-${two(M(d))}-${two(Y(d) % 100)} ${hms(d)}` },
  mdyDash2: { head: "Time", write: (d) => `${two(M(d))}-${two(D(d))}-${two(Y(d) % 100)} ${hms(d)}` },
  ymdSlash2: { head: "Time", write: (d) => `${two(Y(d) % 100)}/${two(M(d))}/${two(D(d))} ${hms(d)}` },
  dots: { head: "Zeit", write: (d) => `${D(d)}.${M(d)}.${Y(d)} ${hms(d)}` },
  german: { head: "Datum", write: (d) => d.toLocaleString("de", { timeZone: "UTC", dateStyle: "medium", timeStyle: "medium" }) },
  french: { head: "Date", write: (d) => d.toLocaleString("fr", { timeZone: "UTC", dateStyle: "long", timeStyle: "medium" }) },
  american: { head: "Date/Time", write: (d) => d.toLocaleString("en-US", { timeZone: "UTC", dateStyle: "medium", timeStyle: "medium" }) },
  apart: { head: "Date|Time", write: (d) => `${two(D(d))}/${two(M(d))}/${Y(d)}|${hms(d)}` },
  apartIso: { head: "Date|Time", write: (d) => `${Y(d)}-${two(M(d))}-${two(D(d))}|${hms(d)}` },
  unix: { head: "timestamp", write: (d) => String(d.getTime() / 1000) },
  unixMs: { head: "ts", write: (d) => String(d.getTime()) },
  days: { head: "Time", write: (d) => (d.getTime() / 864e5 + 25569).toFixed(7) },
  parts: {
    head: "Year|Month|Day|Hour|Minute|Second",
    write: (d) => [Y(d), M(d), D(d), d.getUTCHours(), d.getUTCMinutes(), d.getUTCSeconds()].join("|"),
  },
};

const made = fc.record({
  form: fc.constantFrom(...Object.keys(FORMS)),
  start: fc.integer({ min: Date.UTC(2001, 0, 1) / 1000, max: Date.UTC(2035, 0, 1) / 1000 }),
  step: fc.constantFrom(1, 2, 5, 10, 30, 60, 300, 900, 3600, 86_400),
  rows: fc.integer({ min: 12, max: 120 }),
  newestFirst: fc.boolean(),
});

/** Never a wrong instant without a question; and a question about the order of day and month only where both could be. */
test("any regular log in any form comes back, or the order of its dates is asked", () => {
  fc.assert(
    fc.property(made, ({ form, start, step, rows, newestFirst }) => {
      const instants = Array.from({ length: rows }, (_, i) => start + i * step);
      const written = (newestFirst ? [...instants].reverse() : instants).map((t) => `${FORMS[form].write(new Date(t * 1000))}|3.1`);
      const read = readBack(columnsOf(`${FORMS[form].head}|Pressure (bar)`, written), contextOf())!;
      const expected = instants.map((t) => new Date(t * 1000).toISOString().replace(".000Z", "Z"));
      if (read.asked.includes("date-order")) {
        const days = new Set(instants.map((t) => Math.floor(t / 86_400)));
        expect(read.settled.questions[0].options.length).toBeGreaterThan(1);
        // a second day shows which number moves
        expect([form, start, step, days.size]).toEqual([form, start, step, 1]);
        if (!form.endsWith("2")) expect([...days].every((d) => new Date(d * 864e5).getUTCDate() <= 12)).toBe(true);
      } else expect({ form, start, step, instants: read.instants }).toEqual({ form, start, step, instants: expected });
    }),
    { numRuns: 800 },
  );
});
