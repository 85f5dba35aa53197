import { describe, expect, test } from "vitest";
import { oscillation } from "../../../../analysis/detectors/oscillation";
import type { LivingTank, MeterPlace } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { alwaysRunning, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../../builders/signals";

const PERIOD = 24;
const COUNT = 960;

type Companion = { readonly size: number; readonly lead: number };

/** A pressure wave of 20 kPa with a flow (share of 1e-3 m3/s) and a speed that lead it by so many degrees. */
function driverOf(flow: Companion | null, speed: Companion | null, meter: MeterPlace["place"], tank?: LivingTank) {
  const wave = (lead: number) => (i: number) => Math.cos((2 * Math.PI * i) / PERIOD + (lead * Math.PI) / 180);
  const column = (seed: number, make: (i: number, noise: number) => number) =>
    noiseOf(COUNT, seededRandom(seed), 0.5).map((v, i) => make(i, v));
  const columns = {
    pressure: column(1, (i, v) => 350_000 + 800 * v + 10_000 * wave(0)(i)),
    ...(flow === null ? {} : { flow: column(2, (i, v) => 1e-3 * (1 + 0.02 * v + flow.size * wave(flow.lead)(i))) }),
    ...(speed === null ? {} : { speed: column(3, (i, v) => 0.8 + 0.003 * v + speed.size * wave(speed.lead)(i)) }),
  };
  const record = recordOf(columns);
  const segments = { pump: alwaysRunning(record), meter: { place: meter, from: "given" as const, certainty: 1 }, ...(tank && { tank }) };
  const outcome = oscillation.detect(evidenceOf(record, segments));
  return outcome.state === "found" ? outcome.finding.episodes[0].drivenBy : outcome.state;
}

const tankOf = (k: number): LivingTank => ({
  windows: [],
  heatTime: seconds(0),
  heatShare: 1,
  gasConstant: { value: k, low: k, high: k },
  give: { value: k, low: k, high: k },
  emptiesAt: null,
  emptiesBelow: null,
  points: { drawn: new Float64Array(), inversePressure: new Float64Array(), window: new Uint16Array() },
});

// An integrating tank: dp/dt goes with inflow less draw. Draw through an open fixture goes with the root of pressure.
describe("who drives a wave", () => {
  test("flow drawn in phase with the pressure, speed ahead: the loop", () => {
    expect(driverOf({ size: 0.05, lead: 0 }, { size: 0.03, lead: 80 }, "after-tank")).toBe("loop");
  });
  test("a swinging draw that pressure moves against: the demand", () => {
    expect(driverOf({ size: 0.4, lead: 180 }, { size: 0.03, lead: 20 }, "after-tank")).toBe("demand");
    expect(driverOf({ size: 0.4, lead: -100 }, null, "after-tank")).toBe("demand");
  });
  test("at a steady speed the loop cannot be it", () => {
    expect(driverOf({ size: 0.05, lead: 0 }, { size: 0, lead: 0 }, "after-tank")).toBe("unknown");
  });
  test("a meter before the tank sees the pump's swing a quarter turn ahead, whoever drives", () => {
    expect(driverOf({ size: 0.2, lead: 85 }, { size: 0.03, lead: 110 }, "before-tank")).toBe("unknown");
  });
  // Mass balance: at 24 s and 4.513 bar absolute a swing of 0.1 bar moves C w A = K w A / p^2 = 40 000 * 0.2618 * 10 000 / 4.513e5^2 = 5.1e-4 m3/s.
  test("a draw too steady for what the tank takes and gives, while the speed goes with the wave: the loop", () => {
    expect(driverOf({ size: 0, lead: 0 }, { size: 0.03, lead: 80 }, "after-tank", tankOf(40_000))).toBe("loop");
    expect(driverOf({ size: 0, lead: 0 }, { size: 0, lead: 0 }, "after-tank", tankOf(40_000))).toBe("unknown");
    expect(driverOf({ size: 0, lead: 0 }, { size: 0.03, lead: 80 }, "after-tank", tankOf(40))).toBe("unknown");
  });
  test("a draw that swings as much as the tank takes is not passed over by the balance", () => {
    expect(driverOf({ size: 0.5, lead: -95 }, { size: 0.03, lead: 80 }, "after-tank", tankOf(40_000))).toBe("demand");
  });
  test("flow that does not move with it, or no flow: unknown", () => {
    expect(driverOf({ size: 0, lead: 0 }, { size: 0.03, lead: 80 }, "after-tank")).toBe("unknown");
    expect(driverOf(null, { size: 0.03, lead: 80 }, null)).toBe("unknown");
  });
});
