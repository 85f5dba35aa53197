import { expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import { lastFall } from "../../../../analysis/diagnosis/observations/last-fall";
import { STANDARD_ATMOSPHERE } from "../../../../shared/units/pressure";
import { SWITCHED } from "../../../builders/look-at";
import { gpm, psi } from "../../../builders/outcomes";
import { type Worked, workedHours } from "../../../builders/worked-hours";

const GAL = 3.785411784e-3;
/** K of the site's 20 gal at the usual charge of 34.5 psi, J. */
const SOUND = 20 * GAL * (psi(34.5) + STANDARD_ATMOSPHERE);
const look = (worked: Worked) => LOOKS["usual-fall"](workedHours(worked));
/** At the end of each rest the pressure falls from 52 psi along 1/p(abs) as a tank of gas constant K does when q is drawn (Boyle), for so many s. */
const drawn = (q: number, constant: number, seconds: number) => (k: number) => {
  const since = k >= 300 - seconds && k < 300 ? k - (300 - seconds) : 0;
  return (1 / (1 / (psi(52) + STANDARD_ATMOSPHERE) + (q * since) / constant) - STANDARD_ATMOSPHERE) / psi(1);
};

test("the ratio is the rated flow over the draw that a sound tank would need, worked by hand: 40 gpm, 4 gpm drawn", () => {
  const seen = look({ pressure: drawn(gpm(4), SOUND, 60) });
  expect(seen?.level).toBe("usual");
  expect(Number(seen?.numbers.ratio)).toBeCloseTo(10, 0);
});
test("the same draw from a tank with a tenth of its gas is sudden, with a third quick", () => {
  expect(look({ pressure: drawn(gpm(4), 0.1 * SOUND, 12) })?.level).toBe("sudden");
  expect(look({ pressure: drawn(gpm(4), 0.3 * SOUND, 30) })?.level).toBe("quick");
});
test("the middle fall counts, not the steepest", () => {
  const mostly = (k: number, t: number) => drawn(gpm(t < 3000 ? 40 : 4), SOUND, t < 3000 ? 8 : 60)(k);
  expect(look({ pressure: mostly })?.level).toBe("usual");
});
test("a fall within one sample is not called usual", () => {
  expect(look({ pressure: drawn(gpm(4), SOUND, 20), step: 10 })).toBeNull();
});
test("without a pump's state by the falls from high to low; not without rating, set pressure, or a switch's volume, nor at over twelve seconds", () => {
  expect(look({ pressure: drawn(gpm(4), 0.1 * SOUND, 12), pumpKnown: false })?.level).toBe("sudden");
  expect(look({ pressure: drawn(gpm(4), SOUND, 60), facts: { pumpRatedFlow: undefined } })).toBeNull();
  expect(look({ pressure: drawn(gpm(4), SOUND, 60), facts: { setPressure: undefined } })).toBeNull();
  expect(look({ pressure: drawn(gpm(4), SOUND, 60), facts: { ...SWITCHED, tankVolume: undefined } })).toBeNull();
  expect(look({ pressure: drawn(gpm(4), SOUND, 60), step: 15 })).toBeNull();
});
test("the last two fifths of a fall are read, and none that noise hides", () => {
  const times = Float64Array.from({ length: 11 }, (_, i) => i);
  const pressure = times.map((t) => 5e5 - 1e4 * t);
  const fall = lastFall(times, pressure, { first: 0, end: 10 }, 10, 1e5);
  expect(fall).toMatchObject({ time: 4, samples: 4 });
  expect(fall?.rise).toBeCloseTo(1 / 5e5 - 1 / 5.4e5, 15);
  expect(lastFall(times, pressure, { first: 0, end: 10 }, 7000, 1e5)).toBeNull();
});
