import { describe, expect, test } from "vitest";
import { oscillation } from "../../../../analysis/detectors/oscillation";
import type { MeterPlace } from "../../../../shared/findings/segment";
import { alwaysRunning, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../../builders/signals";

const PERIOD = 24;
const COUNT = 960;

type Companion = { readonly size: number; readonly lead: number };

/** A pressure wave of 20 kPa with a flow (share of 1e-3 m3/s) and a speed that lead it by so many degrees. */
function driverOf(flow: Companion | null, speed: Companion | null, meter: MeterPlace["place"]) {
  const wave = (lead: number) => (i: number) => Math.cos((2 * Math.PI * i) / PERIOD + (lead * Math.PI) / 180);
  const column = (seed: number, make: (i: number, noise: number) => number) =>
    noiseOf(COUNT, seededRandom(seed), 0.5).map((v, i) => make(i, v));
  const columns = {
    pressure: column(1, (i, v) => 350_000 + 800 * v + 10_000 * wave(0)(i)),
    ...(flow === null ? {} : { flow: column(2, (i, v) => 1e-3 * (1 + 0.02 * v + flow.size * wave(flow.lead)(i))) }),
    ...(speed === null ? {} : { speed: column(3, (i, v) => 0.8 + 0.003 * v + speed.size * wave(speed.lead)(i)) }),
  };
  const record = recordOf(columns);
  const segments = { pump: alwaysRunning(record), meter: { place: meter, from: "given" as const, certainty: 1 } };
  const outcome = oscillation.detect(evidenceOf(record, segments));
  return outcome.state === "found" ? outcome.finding.episodes[0].drivenBy : outcome.state;
}

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
  test("a meter before the tank sees the loop's swing a quarter turn ahead", () => {
    expect(driverOf({ size: 0.2, lead: 85 }, { size: 0.03, lead: 110 }, "before-tank")).toBe("loop");
  });
  test("flow that does not move with it, or no flow: unknown", () => {
    expect(driverOf({ size: 0, lead: 0 }, { size: 0.03, lead: 80 }, "after-tank")).toBe("unknown");
    expect(driverOf(null, { size: 0.03, lead: 80 }, null)).toBe("unknown");
  });
});
