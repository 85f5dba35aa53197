import fc from "fast-check";
import { expect, test } from "vitest";
import type { ClockReading } from "../../../../analysis/import/clock/clock-reading";
import { settleClock } from "../../../../analysis/import/clock/settle-clock";
import { settleEven } from "../../../../analysis/import/clock/settle-even";
import { findSampling } from "../../../../analysis/import/find-sampling";
import { NO_CHOICES } from "../../../../analysis/import/import-log";

const READING: ClockReading = {
  columns: [0],
  kind: "civil",
  description: [],
  parse: () => Number.NaN,
  patterns: null,
  unitSeconds: 1,
  start: null,
  interval: null,
  zone: null,
  rollsOverMidnight: false,
  orders: ["dmy"],
  provenOrder: "dmy",
  snap: null,
  certainty: 1,
  questions: [],
  notes: [],
};

const kinds = fc.constantFrom<ClockReading["kind"]>("civil", "unix", "elapsed", "counted");
const zones = fc.constantFrom(null, "+02:00", "Europe/Berlin", "America/New_York");
const starts = fc.constantFrom(null, 1_700_000_000);

/** The long way is the reference: it looks at every row. */
test("a clock of one step is settled as the long way settles it, or left to it", () => {
  let short = 0;
  fc.assert(
    fc.property(
      kinds,
      zones,
      starts,
      fc.integer({ min: 1_600_000_000, max: 1_800_000_000 }),
      fc.integer({ min: 1, max: 40_000 }),
      fc.integer({ min: 2, max: 300 }),
      (kind, zone, start, at, step, count) => {
        const reading = { ...READING, kind, zone, start, interval: step };
        const first = kind === "counted" ? 0 : at;
        const even = settleEven({ first, step }, count, reading);
        const raw = Float64Array.from({ length: count }, (_, i) => (kind === "counted" ? Number.NaN : first + i * step));
        const { times, ...long } = settleClock(raw, reading, NO_CHOICES);
        if (even === null) return;
        short++;
        const { sampling, ...rest } = even;
        expect(rest).toEqual(long);
        expect(sampling.count).toBe(times.length);
        if (count > 2) expect(sampling).toEqual(findSampling(times, null));
      },
    ),
    { numRuns: 400 },
  );
  expect(short).toBeGreaterThan(150);
});

test("a zone that changes its offset within the log is left to the long way", () => {
  const reading = { ...READING, zone: "Europe/Berlin" };
  const march = Date.UTC(2026, 2, 28) / 1000;
  expect(settleEven({ first: march, step: 60 }, 2 * 1440, reading)).toBeNull();
  expect(settleEven({ first: march - 9 * 86400, step: 60 }, 1440, reading)).not.toBeNull();
});
