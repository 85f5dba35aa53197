import { describe, expect, test } from "vitest";
import { pumpPerformance } from "../../../analysis/detectors/pump-performance";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";
import { GPM } from "../../builders/tank-log";

type Part = { readonly seconds: number; readonly psi: number; readonly gpm: number; readonly speed: number };
/** A drive that runs at 80 % and 60 psi with 10 gpm, stops for a while, and does something in between. */
const detect = (part: Part, facts: Record<string, unknown> = { setPressure: "60 psi", pumpRatedFlow: "30 gpm" }) => {
  const parts: Part[] = [
    { seconds: 300, psi: 60, gpm: 10, speed: 0.8 },
    { seconds: 100, psi: 58, gpm: 0, speed: 0 },
    { seconds: 200, psi: 60, gpm: 10, speed: 0.8 },
    part,
    { seconds: 300, psi: 60, gpm: 10, speed: 0.8 },
  ];
  const rows = parts.flatMap((p) => Array.from({ length: p.seconds }, () => p));
  const of = (value: (p: Part) => number) => rows.map(value);
  const sampling = every(1, rows.length);
  const record = recordOf([
    channel(
      "pressure",
      sampling,
      of((p) => p.psi * PSI),
    ),
    channel(
      "flow",
      sampling,
      of((p) => p.gpm * GPM),
    ),
    channel(
      "speed",
      sampling,
      of((p) => p.speed),
    ),
  ]);
  const outcome = pumpPerformance.detect(evidenceOf(record, facts));
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
};

describe("a pump at its limits", () => {
  test("pressure at full speed without flow is its shutoff pressure; a third over the set pressure is expected (one-point curve, EPANET)", () => {
    const { shutoffPressure, expectedShutoff } = detect({ seconds: 60, psi: 50, gpm: 0, speed: 1 });
    expect((shutoffPressure ?? 0) / PSI).toBeCloseTo(50, 3);
    expect((expectedShutoff ?? 0) / PSI).toBeCloseTo(79.8, 3);
  });
  test("pressure and flow that collapse together are a lost prime", () => {
    const { lossOfPrime, overdraw } = detect({ seconds: 40, psi: 10, gpm: 0.2, speed: 1 });
    expect(lossOfPrime).toHaveLength(1);
    expect(overdraw).toEqual([]);
  });
  test("next to no pressure and less flow than usual is a lost prime, though some still flows: at no head a sound pump gives its most", () => {
    expect(detect({ seconds: 90, psi: 6, gpm: 4, speed: 1 }).lossOfPrime).toHaveLength(1);
    expect(detect({ seconds: 90, psi: 6, gpm: 40, speed: 1 }).lossOfPrime).toEqual([]);
    expect(detect({ seconds: 20, psi: 6, gpm: 4, speed: 1 }).lossOfPrime).toEqual([]);
  });
  test("a drive that has speed to spare while the pressure is gone is slow: no prime is lost", () => {
    expect(detect({ seconds: 90, psi: 6, gpm: 0.2, speed: 0.5 }).lossOfPrime).toEqual([]);
    expect(detect({ seconds: 90, psi: 6, gpm: 0.2, speed: 0.75 }).lossOfPrime).toHaveLength(1);
  });
  test("low pressure with much flow is overdraw", () => {
    const { lossOfPrime, overdraw } = detect({ seconds: 90, psi: 45, gpm: 35, speed: 1 });
    expect(lossOfPrime).toEqual([]);
    expect(overdraw).toHaveLength(1);
  });
  test("a dip of some seconds is neither", () => {
    expect(detect({ seconds: 6, psi: 40, gpm: 30, speed: 1 })).toMatchObject({ lossOfPrime: [], overdraw: [] });
  });
  test("the highest flow is the one held for a minute", () => {
    expect((detect({ seconds: 90, psi: 59, gpm: 24, speed: 0.9 }).peakFlow ?? 0) / GPM).toBeCloseTo(24, 1);
    expect((detect({ seconds: 3, psi: 59, gpm: 24, speed: 0.9 }).peakFlow ?? 0) / GPM).toBeLessThan(12);
  });
});
