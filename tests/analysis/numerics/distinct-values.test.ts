import fc from "fast-check";
import { expect, test } from "vitest";
import { differentIn, distinctValues } from "../../../analysis/numerics/distinct-values";

const value = fc.oneof(fc.integer({ min: -50, max: 50 }), fc.double({ noDefaultInfinity: true }), fc.constant(Number.NaN), fc.constant(-0));

/** A Set of the values is the reference (0 and -0 are one key of it). */
test("the different values come in rising order, or null where there are too many", () => {
  fc.assert(
    fc.property(fc.array(value, { maxLength: 200 }), fc.integer({ min: 0, max: 60 }), (values, most) => {
      const expected = [...new Set(values.filter((v) => !Number.isNaN(v)))].sort((a, b) => a - b);
      const found = distinctValues(values, most);
      if (expected.length > most) expect(found).toBeNull();
      else expect([...(found ?? [])].map((v) => v + 0)).toEqual(expected.map((v) => v + 0));
    }),
  );
});

test("the different values of a part are as many as a Set of them holds, whatever parts were counted before", () => {
  fc.assert(
    fc.property(fc.array(value, { maxLength: 120 }), fc.nat(120), fc.nat(120), (values, a, b) => {
      const count = differentIn(120);
      for (const [from, to] of [
        [0, values.length],
        [Math.min(a, values.length), values.length],
        [0, Math.min(b, values.length)],
      ])
        expect(count(values, from, to)).toBe(new Set(values.slice(from, to)).size);
    }),
  );
});
