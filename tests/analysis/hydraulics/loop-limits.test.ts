import { describe, expect, test } from "vitest";
import { calmSetting, slowSwing, ultimateOfIntegrator, ultimateOfLag } from "../../../analysis/hydraulics/loop-limits";
import { seconds } from "../../../shared/units/quantity";

/** Far from 1 on either side, so that a product is not mistaken for a quotient. */
const AWAY = [0.04, 0.5, 3, 20];
const pairs = AWAY.flatMap((a) => AWAY.map((b) => [a, b] as const));

// Nyquist's condition, any control textbook: at the ultimate point the open loop has gain 1 and phase -180 degrees.
describe("at the ultimate point the open loop gives back what it gets, turned over", () => {
  test.each(pairs)("integrator k' %d with delay %d s: |K k'/(jw)| = 1, 90 degrees and w theta make 180", (slope, delay) => {
    const { gain, period } = ultimateOfIntegrator(slope, seconds(delay));
    const w = (2 * Math.PI) / period;
    expect((gain * slope) / w).toBeCloseTo(1, 12);
    expect(Math.PI / 2 + w * delay).toBeCloseTo(Math.PI, 12);
  });
  test.each(pairs)("lag %d s with delay %d s: |K k/(1 + j w tau)| = 1, atan(w tau) and w theta make 180", (lag, delay) => {
    for (const k of AWAY) {
      const { gain, period } = ultimateOfLag(k, seconds(lag), seconds(delay));
      const w = (2 * Math.PI) / period;
      expect((gain * k) / Math.hypot(1, w * lag)).toBeCloseTo(1, 12);
      expect(Math.atan(w * lag) + w * delay).toBeCloseTo(Math.PI, 9);
    }
  });
  test("a lag long against its delay is an integrator of slope k/tau", () => {
    const lag = ultimateOfLag(2, seconds(5e4), seconds(0.5));
    const integrator = ultimateOfIntegrator(2 / 5e4, seconds(0.5));
    expect(lag.gain / integrator.gain).toBeCloseTo(1, 3);
    expect(lag.period / integrator.period).toBeCloseTo(1, 3);
  });
});

// Skogestad 2003, table 1, integrating process with delay: Kc = 1/(k' (tc + theta)), Ti = 4 (tc + theta).
test("the calm setting of an integrator with k' 0.2, delay 3 s, asked to settle in 2 s: Kc 1, Ti 20 s", () => {
  expect(calmSetting(0.2, seconds(3), seconds(2))).toEqual({ gain: expect.closeTo(1, 12), integralTime: expect.closeTo(20, 12) });
});

// s^2 + k' Kc s + k' Kc / Ti = 0: roots with real part -k' Kc / 2 and the imaginary part of the swing.
describe("the slow swing is the root of s^2 + k' Kc s + k' Kc/Ti", () => {
  test.each([
    [0.1, 0.2, 20],
    [4, 0.01, 9],
    [0.02, 30, 3],
  ])("k' %d, Kc %d, Ti %d s", (slope, gain, integral) => {
    const { damping, period } = slowSwing(slope, gain, seconds(integral));
    const loop = slope * gain;
    const imaginary = Math.sqrt(loop / integral - loop ** 2 / 4);
    expect((2 * Math.PI) / period!).toBeCloseTo(imaginary, 9);
    expect(damping).toBeCloseTo(loop / 2 / Math.hypot(loop / 2, imaginary), 9);
  });
  test("is gone where k' Kc Ti is 4, and not just before", () => {
    expect(slowSwing(0.5, 2, seconds(4))).toEqual({ damping: 1, period: null });
    expect(slowSwing(0.5, 2, seconds(3.99)).period).toBeGreaterThan(0);
  });
});
