import { expect, test } from "vitest";
import { findDroop } from "../../../../analysis/detectors/tracking/droop";
import type { SteadyWindow } from "../../../../shared/findings/segment";
import { cubicMetrePerSecond, seconds } from "../../../../shared/units/quantity";
import { evidenceOf, recordOf } from "../../../builders/known-evidence";

/** Ten seconds a window; pressure 500 kPa less 20 kPa per 1e-3 m3/s, and what is added by hand. */
const [STILL, DROOP, SPAN] = [500e3, 20e3 / 1e-3, 10];
type Drawn = { readonly flow: number; readonly off?: number; readonly running?: boolean | null; readonly metered?: boolean };

function droopOf(drawn: readonly Drawn[], shown = true) {
  const pressure = Float64Array.from({ length: drawn.length * SPAN }, (_, i) => {
    const { flow, off = 0 } = drawn[Math.floor(i / SPAN)];
    return STILL - DROOP * flow * 1e-3 + off;
  });
  const steady = drawn.map(
    ({ flow, running = true, metered = true }, i): SteadyWindow => ({
      from: seconds(i * SPAN),
      to: seconds((i + 1) * SPAN),
      basis: "flow",
      meanFlow: metered ? cubicMetrePerSecond(flow * 1e-3) : null,
      pumpRunning: running,
    }),
  );
  const record = recordOf({ pressure });
  return findDroop(evidenceOf(record, shown ? { steady } : {}), record.channels[0]);
}
const flows = (...all: number[]): Drawn[] => all.map((flow) => ({ flow }));

test("the drawn slope comes back, from six windows and not from five", () => {
  expect(droopOf(flows(1, 2, 3, 4, 5, 6))!.value).toBeCloseTo(DROOP, 0);
  expect(droopOf(flows(1, 2, 3, 4, 5))).toBeNull();
  expect(droopOf([])).toBeNull();
});
test("flows that differ by a fifth of the largest are enough; by less, a slope says nothing", () => {
  expect(droopOf(flows(4, 5, 4, 5, 4, 5))!.value).toBeCloseTo(DROOP, 0);
  expect(droopOf(flows(4.1, 5, 4.1, 5, 4.1, 5))).toBeNull();
  expect(droopOf(flows(3, 3, 3, 3, 3, 3))).toBeNull();
});
test("a window without a metered flow, with the pump off or without a pressure is left out", () => {
  const aside: Drawn[] = [
    { flow: 9, off: 300e3, running: false },
    { flow: 0, off: -90e3, metered: false },
    { flow: 8, off: Number.NaN },
  ];
  expect(droopOf([...flows(1, 2, 3, 4, 5, 6), ...aside])!.value).toBeCloseTo(DROOP, 0);
  expect(droopOf([...flows(1, 2, 3, 4, 5), ...aside])).toBeNull();
});
test("where the pump's state is not known a window still counts", () => {
  expect(droopOf([1, 2, 3, 4, 5, 6].map((flow) => ({ flow, running: null })))!.value).toBeCloseTo(DROOP, 0);
});
test("no steady draw, no droop", () => expect(droopOf(flows(1, 2, 3, 4, 5, 6), false)).toBeNull());
test("scattered pressures widen the interval about the slope, which stays inside it", () => {
  const droop = droopOf([1, 2, 3, 4, 5, 6, 7, 8].map((flow, i) => ({ flow, off: i % 2 === 0 ? 2e3 : -2e3 })))!;
  expect(droop.low).toBeLessThan(DROOP);
  expect(droop.high).toBeGreaterThan(DROOP);
  expect(droop.low).toBeLessThan(droop.value);
  expect(droop.high).toBeGreaterThan(droop.value);
});
