import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import { lastFall } from "../../../../analysis/diagnosis/observations/last-fall";
import { STANDARD_ATMOSPHERE } from "../../../../shared/units/pressure";
import { SWITCHED } from "../../../builders/look-at";
import { gpm, psi } from "../../../builders/outcomes";
import { noiseOf, seededRandom } from "../../../builders/signals";
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
  expect(Number(seen?.numbers.time) / 60).toBeGreaterThan(0.3);
  expect(Number(seen?.numbers.time) / 60).toBeLessThan(0.5); // two fifths of it, to a few readings at the edge of the fall
});
test("the same draw from a tank with a tenth of its gas is sudden, with a third quick", () => {
  expect(look({ pressure: drawn(gpm(4), 0.1 * SOUND, 12) })?.level).toBe("sudden");
  expect(look({ pressure: drawn(gpm(4), 0.3 * SOUND, 30) })?.level).toBe("quick");
});
test("behind a long pipe a quick fall is the pipe's, a usual one still the tank's", () => {
  const far = { sensorToTank: "58 ft" };
  expect(look({ pressure: drawn(gpm(4), 0.1 * SOUND, 12), facts: far })).toBeNull();
  expect(look({ pressure: drawn(gpm(4), SOUND, 60), facts: far })?.level).toBe("usual");
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

describe("bounds", () => {
  const level = (ratio: number, worked: Partial<Worked> = {}, constant = SOUND) =>
    look({ pressure: drawn(gpm(40 / ratio), constant, 12), ...worked })?.level;
  test("a drive's pump gives 1.5 and 4.5 times what is usually drawn", () => {
    expect([1.45, 1.55, 4.4, 4.6].map((ratio) => level(ratio))).toEqual(["sudden", "quick", "quick", "usual"]);
    expect(look({ pressure: drawn(gpm(10), SOUND, 12) })?.numbers.falls).toBe(11); // the first rest has no run before it
  });
  test("a switch's 0.7 and 2.2 times; its tank is charged to 2 psi under the cut-in of 40 psi", () => {
    const switched = 20 * GAL * (psi(38) + STANDARD_ATMOSPHERE);
    expect([0.68, 0.72, 2.1, 2.3].map((ratio) => level(ratio, { facts: SWITCHED }, switched))).toEqual([
      "sudden",
      "quick",
      "quick",
      "usual",
    ]);
    expect(level(2, { facts: { ...SWITCHED, cutIn: undefined } })).toBeUndefined();
  });
  test("a drive's tank whose volume no one knows is that of practice: a fifth of a minute's flow, 8 gal", () => {
    const facts = { tankVolume: undefined };
    const practice = 8 * GAL * (psi(34.5) + STANDARD_ATMOSPHERE);
    expect([1.45, 1.55, 4.4, 4.6].map((ratio) => level(ratio, { facts }, practice))).toEqual(["sudden", "quick", "quick", "usual"]);
  });
  test("four falls are usual, three are not", () => {
    const inRests = (count: number) =>
      look({ pressure: (k, t) => (t > 600 * (count + 1) ? 52 : drawn(gpm(4), SOUND, 60)(k)) })?.numbers.falls;
    expect([3, 4].map(inRests)).toEqual([undefined, 4]);
  });
  test("twelve seconds a sample show a fall, fifteen do not, whether the pump is known or not", () => {
    const slow = (step: number, pumpKnown: boolean) => look({ pressure: drawn(gpm(4), SOUND, 240), step, pumpKnown }) !== null;
    expect([slow(12, true), slow(15, true), slow(12, false), slow(15, false)]).toEqual([true, false, true, false]);
  });
  test("without the pump's state a fall is one of six hundredths of the pressure held (3.1 psi)", () => {
    const saw = (size: number) => look({ pressure: (k) => 52 - (size * (k % 100)) / 99, pumpKnown: false });
    expect(saw(3)).toBeNull();
    expect(saw(3.3)?.numbers.falls).toBeGreaterThan(60);
  });
  test("noise hides a fall whose last two fifths are under six of its spreads", () => {
    const noise = noiseOf(7200, seededRandom(23));
    const loud = (sigma: number) => look({ pressure: (k, t) => drawn(gpm(4), SOUND, 60)(k) + sigma * noise[t] });
    // 4 gpm for a minute take some 13 psi: two fifths are 5
    expect(loud(0.3)?.level).toBe("usual");
    expect(loud(1.5)).toBeNull();
  });
  test("the part that is read ends where the rest does, and begins at the last reading two fifths above", () => {
    const times = Float64Array.from({ length: 11 }, (_, i) => 2 * i);
    const at = (pressure: readonly number[], first = 0) => lastFall(times, pressure, { first, end: 10 }, 10, 1e5);
    // highest 10 kPa above the end, after a lower begin: 4 kPa above it was last seen at the sixth reading
    expect(at([5.05, 5.1, 5.1, 5.08, 5.06, 5.04, 5.039, 5.03, 5.02, 5.01, 5].map((bar) => 1e5 * bar))).toMatchObject({
      time: 10,
      samples: 5,
    });
    // a highest before the rest does not count: of 4 kPa the last 1.6 are seen from the eighth reading on
    expect(
      at(
        [5.05, 5.1, 5.1, 5.08, 5.06, 5.04, 5.039, 5.03, 5.015, 5.01, 5].map((bar) => 1e5 * bar),
        5,
      ),
    ).toMatchObject({ time: 6, samples: 3 });
    expect(at([5.1, 5.1, 5.1, 5.1, 5.1, 5.1, 5.1, 5.1, 5.1, 5.1, 5].map((bar) => 1e5 * bar))).toMatchObject({ time: 2, samples: 1 });
    expect(at(Array(11).fill(5e5))).toBeNull();
    expect(at([4e5, 4e5, 4e5, 4e5, 4e5, 4e5, 4e5, 4e5, 4e5, 4e5, 5e5])).toBeNull(); // it rose
  });
});
