import { expect, test } from "vitest";
import { pressureCurve } from "../../../analysis/segments/pressure-curve";
import { timeAt } from "../../../shared/record/sampling";
import { channel, onChange } from "../../builders/record";

/** A saw-tooth of two slopes seen each second and written where it left its dead band: the turn lies between two rows, where the lines on either side cross. */
const BAND = 2000;
const sawTooth = (fall: number, rise: number, turn: number) => (t: number) =>
  t < turn ? 400e3 - fall * t : 400e3 - fall * turn + rise * (t - turn);

function written(signal: (t: number) => number, seconds: number) {
  const [times, values] = [[0], [signal(0)]];
  for (let t = 1; t < seconds; t++) {
    if (Math.abs(signal(t) - values[values.length - 1]) < BAND) continue;
    times.push(t);
    values.push(signal(t));
  }
  return channel("pressure", onChange(times, seconds), values);
}

/** The curve by the instants that it is read at: those of the scan that its rows show. */
function curveOf(signal: (t: number) => number, seconds: number) {
  const { values, sampling } = pressureCurve(written(signal, seconds), []);
  return Array.from(values, (value, i) => ({ t: timeAt(sampling, i), value }));
}

test.each([
  [300, 1500, 200.5], // a slow fall, a quick rise: a start
  [300, 900, 207.3],
  [-900, -250, 150.4], // a quick rise, a slow fall: a stop
  [450, 450, 180.2], // as fast either way
])("turns where it turned: %d Pa/s, then %d Pa/s at %d s", (fall, rise, turn) => {
  const signal = sawTooth(fall, rise, turn);
  const curve = curveOf(signal, 400);
  const sign = Math.sign(fall);
  const lowest = curve.reduce((least, point) => (sign * point.value < sign * least.value ? point : least));
  expect(Math.abs(lowest.t - turn)).toBeLessThan(2.5); // the scan that rows of one slope show may be of some seconds
  for (const { t, value } of curve.filter(({ t }) => t < 390)) expect(Math.abs(value - signal(t)), `at ${t} s`).toBeLessThan(0.3 * BAND);
});

test("what stood still and leapt stands until it leaps", () => {
  const curve = curveOf((t) => (t < 100 ? 300e3 : 310e3 + 700 * (t - 100)), 300);
  expect(curve.filter(({ t }) => t < 100).every(({ value }) => value === 300e3)).toBe(true);
  expect(curve.find(({ t }) => t >= 100)?.value).toBeGreaterThanOrEqual(310e3);
});
