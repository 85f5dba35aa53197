import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import { rhythmWithin } from "../../../../analysis/numerics/rhythm-within";
import type { Outcome } from "../../../../shared/findings/finding";
import { seconds } from "../../../../shared/units/quantity";
import { SWITCHED } from "../../../builders/look-at";
import { swing } from "../../../builders/outcomes";
import { noiseOf, seededRandom } from "../../../builders/signals";
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
test("before the tank the pump's own swing is no rhythm of the draw: where the pressure swings at that period it is not asked", () => {
  const sight = workedHours({ pressure: () => 52, flow: (_, t) => 10 + (t % 100 < 30 ? 12 : 0) });
  const segments = { ...sight.segments, meter: { place: "before-tank", from: "given", certainty: 1 } as const };
  const asked = (outcomes: readonly Outcome[]) => LOOKS["draw-rhythm"]({ ...sight, segments, outcomes })?.level ?? null;
  expect(asked([])).toBe("regular");
  expect(asked([swing(98, 20, "unknown")])).toBeNull();
  expect(asked([swing(40, 20, "unknown")])).toBe("regular");
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
/** Pearson's correlation about the mean of all, pair by pair. */
function correlationAt(values: Float64Array, part: Int32Array, lag: number): number {
  const known = values.filter((v) => !Number.isNaN(v));
  const mean = known.reduce((a, b) => a + b, 0) / known.length;
  let [both, first, second] = [0, 0, 0];
  for (let i = 0; i + lag < values.length; i++) {
    const [a, b] = [values[i] - mean, values[i + lag] - mean];
    if (Number.isNaN(a * b) || part[i] !== part[i + lag]) continue;
    both += a * b;
    first += a * a;
    second += b * b;
  }
  return both / Math.sqrt(first * second);
}
test("every pair of one part counts, and none with a missing value", () => {
  const wave = (i: number) => Math.sin((2 * Math.PI * i) / 40) + random.next();
  const values = Float64Array.from({ length: 1500 }, (_, i) => (random.next() < 0.2 ? Number.NaN : wave(i)));
  const part = Int32Array.from(values, (v, i) => (Number.isNaN(v) && random.next() < 0.5 ? -1 : Math.floor(i / 311)));
  const r = (lag: number) => correlationAt(values, part, lag);
  const { lag, strength } = rhythmWithin(values, part, 30, 50)!;
  const twice = Math.max(...[-2, -1, 0, 1, 2].map((k) => r(2 * lag + k)));
  expect(strength).toBeCloseTo((r(lag) + twice - r(Math.round(lag / 2)) - r(Math.round(1.5 * lag))) / 2, 12);
});

describe("what is asked of which flow", () => {
  const sight = (worked: Partial<Worked>) => workedHours({ pressure: () => 52, ...worked });
  const metered = (place: "before-tank" | "after-tank", worked: Partial<Worked>) => {
    const seen = sight(worked);
    return LOOKS["draw-rhythm"]({ ...seen, segments: { ...seen.segments, meter: { place, from: "given", certainty: 1 } } });
  };
  const pulses = (period: number) => (_: number, t: number) => (t % period < 0.4 * period ? 12 : 0);
  test("periods up to seven and a half minutes", () => {
    expect(look({ flow: pulses(440) })).toMatchObject({ level: "regular", numbers: { gap: 440 } });
    expect(look({ flow: pulses(480) })?.level).toBe("irregular");
  });
  test("from 20 s on: a shorter one is of the loop's kind", () => {
    expect(look({ flow: pulses(20) })?.numbers.gap).toBe(20);
    expect(Number(look({ flow: pulses(16) })?.numbers.gap ?? 32)).toBeGreaterThanOrEqual(32); // its double at best
  });
  /** A sine that makes up a share f of the variance correlates f one and two periods apart, -f half and one and a half apart: its share comes to f. */
  test("a tenth of the variance is nothing, three tenths are a rhythm; in the mean of 4 s white noise is half as loud", () => {
    const noise = noiseOf(7200, seededRandom(31));
    const of = (share: number) => {
      const loud = 2 * Math.sqrt((0.5 * (1 - share)) / share);
      return look({ flow: (_, t) => 20 + Math.sin((2 * Math.PI * t) / 100) + loud * noise[t] });
    };
    expect(of(0.1)?.level).toBe("irregular");
    expect(of(0.3)?.level).toBe("regular");
    expect(Number(of(0.3)?.numbers.share)).toBeCloseTo(0.3, 1);
    expect(Number(of(0.6)?.numbers.share)).toBeCloseTo(0.6, 1);
  });
  test("before the tank the meter shows the draw in a run past its first fifteen seconds, and what it shows elsewhere does not matter", () => {
    const within = (k: number, t: number) => (k >= 300 ? pulses(40)(k, t) : 0);
    const plain = metered("before-tank", { flow: within });
    expect(plain).toMatchObject({ level: "regular", numbers: { gap: 40 } });
    expect(metered("before-tank", { flow: (k, t) => (k > 315 || k === 0 ? within(k, t) : 3 * ((t * 7) % 11)) })).toEqual(plain);
    expect(metered("before-tank", { flow: (k, t) => (k > 316 || k === 0 ? within(k, t) : 50) })).not.toEqual(plain);
    expect(metered("after-tank", { flow: within })).not.toEqual(plain);
  });
  test("with a switch a meter before the tank shows the pump's own flow: then the falls at rest are asked", () => {
    const steps = (k: number) => (k < 300 ? 60 - 2 * Math.floor(k / 40) - Math.min(2, (k % 40) / 5) : 60);
    const facts = SWITCHED;
    expect(metered("before-tank", { flow: pulses(100), facts })?.level).toBe("irregular"); // the pressure stands
    expect(metered("after-tank", { flow: pulses(100), facts })?.level).toBe("regular");
    expect(metered("before-tank", { pressure: steps, flow: () => 10, facts })).toMatchObject({ level: "regular", numbers: { gap: 40 } });
    expect(metered("after-tank", { pressure: steps, flow: () => 10, facts })?.level).toBe("irregular");
  });
  test("what the pressure does when the pump stops is no draw's", () => {
    const seen = (stop: number) => {
      const falling = (k: number) => 60 - 2 * Math.floor(k / 40) - Math.min(2, (k % 40) / 5);
      return look({ pressure: (k) => (k < 300 ? falling(k) : k < 595 ? 60 : stop), flow: null, facts: SWITCHED });
    };
    expect(seen(80)).toEqual(seen(60));
    expect(seen(60)?.numbers.gap).toBe(40);
  });
  test("what noise and steps of a reading make of a fall is none", () => {
    const noise = noiseOf(7200, seededRandom(17));
    const swinging = (size: number) => (k: number, t: number) => 50 + size * Math.sin((2 * Math.PI * k) / 60) + noise[t];
    const at = (size: number) => look({ pressure: swinging(size), flow: null, facts: SWITCHED });
    expect(at(0)?.level).toBe("irregular");
    // over 4 s noise makes root two of itself; a sine of 60 s falls by 2 sin(4 pi / 60) = 0.42 of its size at most, 0.29 in the mean square
    expect(at(2)).toEqual({ level: "irregular", numbers: {} });
    expect(at(20)).toMatchObject({ level: "regular", numbers: { gap: 60 } });
  });
  test("in an hour at least, at a minute a sample at most, where the pump's state is known", () => {
    const flow = pulses(300);
    const lasting = (duration: number) => {
      const seen = sight({ flow });
      return LOOKS["draw-rhythm"]({ ...seen, record: { ...seen.record, duration: seconds(duration) } });
    };
    expect([3599, 3600].map((duration) => lasting(duration)?.level)).toEqual([undefined, "regular"]);
    expect(look({ flow, step: 60 })?.numbers.gap).toBe(300);
    expect(look({ flow, step: 75 })).toBeNull();
    expect(look({ flow, pumpKnown: false })).toBeNull();
  });
  test("missing readings are left out", () => {
    const holed = look({ flow: (k, t) => (t % 9 < 3 ? Number.NaN : pulses(100)(k, t)) });
    expect(holed).toMatchObject({ level: "regular", numbers: { gap: 100 } });
  });
});
