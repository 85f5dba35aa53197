import { expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import { rhythmWithin } from "../../../../analysis/numerics/rhythm-within";
import { SWITCHED } from "../../../builders/look-at";
import { seededRandom } from "../../../builders/signals";
import { type Worked, workedHours } from "../../../builders/worked-hours";

const look = (worked: Partial<Worked>) => LOOKS["draw-rhythm"](workedHours({ pressure: () => 52, ...worked }));
const random = seededRandom(21);
/** Taps by chance: about one in ten minutes, half a minute to three minutes long. */
const chance = Float64Array.from({ length: 7200 }, () => 0);
for (let t = 0; t < 7200; t += Math.round(-600 * Math.log(1 - random.next()))) chance.fill(8, t, t + 30 + 150 * random.next());

test("pulses of 100 s among draws by chance are a rhythm, and their period is read", () => {
  const seen = look({ flow: (_, t) => chance[t] + (t % 100 < 30 ? 12 : 0) });
  expect(seen?.level).toBe("regular");
  expect(Number(seen?.numbers.gap)).toBeCloseTo(100, -1);
});
test("draws by chance are none, nor is a flow that stays", () => {
  expect(look({ flow: (_, t) => chance[t] })?.level).toBe("irregular");
  expect(look({ flow: () => 10 })?.level).toBe("irregular");
});
test("with a switch and no meter after the tank, by the falls at rest: a tap that runs 10 s in every 40 s", () => {
  const steps = (k: number) => (k < 300 ? 60 - 2 * Math.floor(k / 40) - Math.min(2, (k % 40) / 5) : 60);
  expect(look({ pressure: steps, flow: null, facts: SWITCHED })?.level).toBe("regular");
  expect(look({ pressure: (k) => (k < 300 ? 60 - k / 20 : 60), flow: null, facts: SWITCHED })?.level).toBe("irregular");
});
test("with a drive and no meter it is not asked: its swing is", () => {
  expect(look({ flow: null })).toBeNull();
});
test("a period within parts only: what comes back from part to part is the parts' own", () => {
  const values = Float64Array.from({ length: 4000 }, (_, i) => (i % 50 < 10 ? 1 : 0));
  const whole = new Int32Array(4000);
  expect(rhythmWithin(values, whole, 10, 90)).toMatchObject({ lag: 50 });
  const parts = Int32Array.from({ length: 4000 }, (_, i) => Math.floor(i / 50));
  expect(rhythmWithin(values, parts, 50, 90)).toBeNull();
});
