import fc from "fast-check";
import { expect, test } from "vitest";
import { RowTimes } from "../../../../analysis/import/body/row-times";

const steady = fc
  .tuple(fc.integer(), fc.integer({ min: 1, max: 100 }), fc.nat({ max: 50 }))
  .map(([first, step, n]) => Array.from({ length: n }, (_, i) => first + i * step));
const any = fc.array(fc.oneof(fc.double(), fc.constant(Number.NaN)), { maxLength: 20 });

test("whatever is pushed, one by one or many at once, comes back to the last bit", () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.oneof(steady, any), fc.boolean()), { maxLength: 6 }), (parts) => {
      const times = new RowTimes();
      for (const [part, atOnce] of parts) {
        if (atOnce) times.pushMany(Float64Array.from(part), part.length);
        else for (const time of part) times.push(time);
      }
      expect([...times.all()]).toEqual(parts.flatMap(([part]) => part));
    }),
  );
});

test("rows at one step are start and step; one row out of step ends that", () => {
  const times = new RowTimes();
  times.pushMany(Float64Array.of(10, 15, 20, 25), 4);
  expect(times.even()).toEqual({ first: 10, step: 5 });
  times.push(31);
  expect(times.even()).toBeNull();
});
