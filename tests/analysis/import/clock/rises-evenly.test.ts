import { describe, expect, test } from "vitest";
import { risesEvenly } from "../../../../analysis/import/clock/rises-evenly";

const every = (step: number, count: number, start = 1_767_571_200) => Float64Array.from({ length: count }, (_, i) => start + i * step);

describe("instants that rise evenly need no further look", () => {
  test("whole and broken steps, absolute and from nothing", () => {
    for (const step of [0.01, 0.1, 1, 2, 60, 86400]) {
      expect(risesEvenly(every(step, 5000))).toBe(true);
      expect(risesEvenly(every(step, 5000, 0))).toBe(true);
    }
  });
  test("one row missing, repeated, late, unread, or an hour on", () => {
    const spoilt = (change: (times: Float64Array) => void) => {
      const times = every(1, 1000);
      change(times);
      return risesEvenly(times);
    };
    expect(
      spoilt((t) =>
        t.forEach((v, i) => {
          t[i] = i > 500 ? v + 1 : v;
        }),
      ),
    ).toBe(false);
    expect(spoilt((t) => (t[500] = t[499]))).toBe(false);
    expect(spoilt((t) => (t[500] = t[490]))).toBe(false);
    expect(spoilt((t) => (t[500] = Number.NaN))).toBe(false);
    expect(spoilt((t) => (t[0] = Number.NaN))).toBe(false);
    expect(
      spoilt((t) =>
        t.forEach((v, i) => {
          t[i] = i > 500 ? v + 3600 : v;
        }),
      ),
    ).toBe(false);
  });
  test("falling, still, single, and steps of more than a day are looked at", () => {
    expect(risesEvenly(every(-1, 100))).toBe(false);
    expect(risesEvenly(every(0, 100))).toBe(false);
    expect(risesEvenly(every(1, 1))).toBe(false);
    expect(risesEvenly(every(2 * 86400, 100))).toBe(false);
  });
});
