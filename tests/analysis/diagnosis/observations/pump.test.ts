import { describe, expect, test } from "vitest";
import type { PumpPerformanceFinding } from "../../../../shared/findings/finding";
import type { PumpStateBasis } from "../../../../shared/findings/segment";
import { levelAt, lookAt } from "../../../builders/look-at";
import { channelOf, clearOf, foundWith, oddCycles, psi, recordOf, usualChannels } from "../../../builders/outcomes";
import { span } from "../../../builders/trace";

const pump = (change: Partial<PumpPerformanceFinding>) => [foundWith("pump-performance", change)];
const by = (basis: PumpStateBasis) => ({ ...oddCycles(24, 300), basis });
const [pressure, flow] = usualChannels();
const current = channelOf("current", "electricCurrent", [1, 2]);
const power = channelOf("power", "power", [1, 2]);
const speed = channelOf("speed", "fraction", [1, 1]);

describe("prime", () => {
  test("lost where it was seen, how often and how long in all", () => {
    const lost = pump({ lossOfPrime: [span(10, 30), span(100, 150)] });
    expect(lookAt("prime", { outcomes: lost })).toEqual({ level: "lost", numbers: { times: 2, total: 70 } });
  });
  test("held where a loss would have shown: a witness of the pump, and flow or load", () => {
    for (const basis of ["running", "speed", "current", "power"] as const)
      expect(lookAt("prime", { pump: by(basis) }), basis).toEqual({ level: "held", numbers: { times: 0, total: 0 } });
    for (const basis of ["flow", "pressure"] as const) expect(levelAt("prime", { pump: by(basis) }), basis).toBeNull();
    expect(levelAt("prime")).toBeNull();
    for (const load of [flow, current, power])
      expect(levelAt("prime", { pump: by("speed"), record: recordOf([pressure, load]) }), load.role).toBe("held");
    expect(levelAt("prime", { pump: by("speed"), record: recordOf([pressure]) })).toBeNull();
  });
  test("where the pressure sank all the same only a meter shows that the water came: a drive's motor need not run lighter without it", () => {
    const sunk = { pump: by("speed"), facts: { setPressure: "500 psi" } };
    expect(levelAt("prime", { ...sunk, record: recordOf([pressure, current]) })).toBeNull();
    expect(levelAt("prime", { ...sunk, record: recordOf([pressure, flow, current]) })).toBe("held");
  });
  test("held also where the detector is clear; not said where nobody looked", () => {
    expect(levelAt("prime", { only: [clearOf("pump-performance")], pump: by("speed") })).toBe("held");
    expect(levelAt("prime", { only: [], pump: by("speed") })).toBeNull();
  });
});

describe("overdraw", () => {
  const driven = recordOf([pressure, flow, speed]);
  test("where and how long", () => {
    expect(lookAt("overdraw", { outcomes: pump({ overdraw: [span(0, 60), span(100, 190)] }) })).toEqual({
      level: "present",
      numbers: { total: 150, times: 2 },
    });
  });
  test("none where it would have shown: a speed and a set pressure", () => {
    expect(lookAt("overdraw", { record: driven })).toEqual({ level: "none", numbers: {} });
    expect(levelAt("overdraw", { only: [clearOf("pump-performance")], record: driven })).toBe("none");
    expect(levelAt("overdraw")).toBeNull();
    expect(levelAt("overdraw", { record: driven, facts: { setPressure: undefined } })).toBeNull();
    expect(levelAt("overdraw", { only: [], record: driven })).toBeNull();
  });
});

describe("pressure without flow at full speed", () => {
  test("weak under 85 % of what is expected", () => {
    const at = (p: number, expected: number) =>
      lookAt("shutoff", { only: pump({ shutoffPressure: psi(p), expectedShutoff: psi(expected) }) });
    expect([84, 86].map((p) => at(p, 100)?.level)).toEqual(["weak", "full"]);
    expect(at(80, 100)?.numbers).toEqual({ shutoff: psi(80), expected: psi(100), ratio: expect.closeTo(0.8, 12) });
    expect(at(80, 0)).toBeNull();
    expect(lookAt("shutoff", { only: pump({ shutoffPressure: null }) })).toBeNull();
    expect(lookAt("shutoff", { only: pump({ expectedShutoff: null }) })).toBeNull();
    expect(lookAt("shutoff", { only: [] })).toBeNull();
  });
});
