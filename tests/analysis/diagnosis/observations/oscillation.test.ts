import { describe, expect, test } from "vitest";
import type { OscillationEpisode } from "../../../../shared/findings/finding";
import { STANDARD_ATMOSPHERE } from "../../../../shared/units/pressure";
import { joule, metre, seconds } from "../../../../shared/units/quantity";
import { type Drawn, levelAt, lookAt, SWITCHED } from "../../../builders/look-at";
import { about, clearOf, foundWith, psi, psiDifference, pumpWith, recordOf, untold } from "../../../builders/outcomes";

type Part = { readonly s: number; readonly period?: number; readonly psi?: number; readonly by?: OscillationEpisode["drivenBy"] };
let from = 0;
const episode = ({ s, period = 20, psi: height = 4, by = "loop" }: Part): OscillationEpisode => {
  from += 10_000;
  return {
    from: seconds(from),
    to: seconds(from + s),
    channel: "pressure",
    period: about(seconds(period)),
    peakToPeak: about(psiDifference(height)),
    heightIsLeast: false,
    meterSeesPump: false,
    regularity: 3,
    shape: "sine",
    drivenBy: by,
    share: 0.9,
    couldBeFoldedFrom: [],
  };
};
const swings = (...parts: Part[]) => [foundWith("oscillation", { episodes: parts.map(episode) })];

describe("how large", () => {
  const at = (parts: Part[], drawn: Drawn = {}) => lookAt("oscillation", { outcomes: swings(...parts), ...drawn });
  test("against the limit (3 psi), by the height in the middle of the time", () => {
    expect([2.9, 3].map((height) => at([{ s: 3600, psi: height }])?.level)).toEqual(["small", "large"]);
    expect(at([{ s: 4000, psi: 2 }, { s: 1000, psi: 9 }, { s: 1000, psi: 9 }])?.level).toBe("small"); // biome-ignore format: three stretches
    expect(at([{ s: 1000, psi: 2 }, { s: 1000, psi: 2 }, { s: 4000, psi: 9 }])?.level).toBe("large"); // biome-ignore format: three stretches
    expect(at([{ s: 4000, psi: 4, period: 30 }, { s: 3000, psi: 9, period: 50 }])?.numbers).toEqual({
      peakToPeak: psiDifference(4),
      limit: psiDifference(3),
      period: 30,
      total: 7000,
    }); // biome-ignore format: two stretches
  });
  test("what lasts under ten minutes and under a fiftieth of the record is passing", () => {
    expect(at([{ s: 599, psi: 9 }])?.level).toBe("small");
    expect(at([{ s: 600, psi: 9 }])?.level).toBe("large");
    // Four hours: a fiftieth are 288 s.
    expect(at([{ s: 287, psi: 9 }], { record: recordOf(undefined, 4) })?.level).toBe("small");
    expect(at([{ s: 289, psi: 9 }], { record: recordOf(undefined, 4) })?.level).toBe("large");
  });
  test("the pump's own saw-tooth is none", () => {
    expect(at([{ s: 9000, by: "cycling" }])).toEqual({ level: "none", numbers: {} });
    expect(levelAt("oscillation", { only: [clearOf("oscillation")] })).toBe("none");
    expect(levelAt("oscillation", { only: [untold("oscillation")] })).toBeNull();
  });
});

describe("what drives it, by time", () => {
  const at = (...parts: Part[]) => lookAt("oscillation-driver", { outcomes: swings(...parts) });
  test("over half of it", () => {
    expect(at({ s: 600 }, { s: 400, by: "demand" })).toEqual({ level: "loop", numbers: { loop: 0.6, demand: 0.4 } });
    expect(at({ s: 400 }, { s: 600, by: "demand" })).toEqual({ level: "demand", numbers: { loop: 0.4, demand: 0.6 } });
    expect(at({ s: 500 }, { s: 500, by: "demand" })?.level).toBe("unclear");
    expect(at({ s: 400 }, { s: 400, by: "demand" }, { s: 400, by: "unknown" })?.level).toBe("unclear");
  });
  test("the saw-tooth does not count", () => {
    expect(at({ s: 600 }, { s: 5000, by: "cycling" })?.level).toBe("loop");
    expect(at({ s: 600, by: "cycling" })).toBeNull();
  });
});

test("its period: under 15 s fast, from 60 s slow", () => {
  const at = (period: number) => lookAt("oscillation-period", { outcomes: swings({ s: 3600, period }) });
  expect([14.9, 15, 59.9, 60].map((p) => at(p)?.level)).toEqual(["fast", "middling", "middling", "slow"]);
  expect(at(20)?.numbers).toEqual({ period: 20 });
  expect(levelAt("oscillation-period")).toBeNull();
});

describe("against the surge of the water between tank and sensor, T = 2 pi sqrt(I C)", () => {
  // I = 4 rho L/(pi D^2), C = K/(n p^2): 100 ft of 1.25 in pipe at 52 psi.
  const [length, bore, p] = [100 * 0.3048, 1.25 * 0.0254, psi(52) + STANDARD_ATMOSPHERE];
  const periodFor = (constant: number, n: number) =>
    2 * Math.PI * Math.sqrt(((998.2 * length * 4) / (Math.PI * bore ** 2)) * (constant / (n * p ** 2)));
  const FACTS = { sensorToTank: "100 ft" };
  const at = (period: number, facts: object = FACTS, constant: number | null = 26000) =>
    lookAt("surge-period", {
      outcomes: [
        ...swings({ s: 3600, period }),
        foundWith("tank-charge", { gasConstant: constant === null ? null : about(joule(constant)) }),
      ],
      facts: { ...facts },
    });
  const [slow, fast] = [periodFor(26000, 1), periodFor(26000, 1.4)];
  test("agrees from three quarters of the fast to four thirds of the slow", () => {
    expect([0.74 * fast, 0.76 * fast, 1.32 * slow, 1.34 * slow].map((t) => at(t)?.level)).toEqual([
      "differs",
      "agrees",
      "agrees",
      "differs",
    ]);
    expect(Number(at(5)?.numbers.slow) / slow).toBeCloseTo(1, 3);
    expect(Number(at(5)?.numbers.fast) / fast).toBeCloseTo(1, 3);
    expect(at(5)?.numbers.period).toBe(5);
  });
  test("by the tank's facts where its constant was not measured", () => {
    const byFacts = 20 * 3.785411784e-3 * (psi(35) + STANDARD_ATMOSPHERE);
    expect(Number(at(5, FACTS, null)?.numbers.slow) / periodFor(byFacts, 1)).toBeCloseTo(1, 3);
    for (const missing of ["tankVolume", "precharge"]) expect(at(5, { ...FACTS, [missing]: undefined }, null), missing).toBeNull();
    expect(at(5, { ...FACTS, tankVolume: undefined })).not.toBeNull();
  });
  test("not without a period, the pipe, or a pressure", () => {
    for (const missing of ["sensorToTank", "pipeInsideDiameter"]) expect(at(5, { ...FACTS, [missing]: undefined }), missing).toBeNull();
    expect(levelAt("surge-period", { facts: FACTS })).toBeNull();
    expect(at(5, FACTS, 0)).toBeNull();
    expect(levelAt("surge-period", { only: swings({ s: 3600 }), facts: { ...FACTS, setPressure: undefined } })).toBeNull();
  });
});

describe("how far the sensor is: ten feet by practice", () => {
  test("near to 1.2 of it, far from 2.5", () => {
    const at = (feet: number) => levelAt("sensor-distance", { facts: { sensorToTank: `${feet} ft` } });
    expect([11.9, 12.1, 24.9, 25.1].map(at)).toEqual(["near", "beyond", "beyond", "far"]);
    expect(lookAt("sensor-distance", { facts: { sensorToTank: "20 ft" } })?.numbers).toEqual({
      distance: expect.closeTo(6.096, 9),
      limit: expect.closeTo(3.048, 9),
    });
  });
  test("as stated before as measured between two sensors; neither, not said", () => {
    const measured = [foundWith("sensor", { equivalentDistance: about(metre(9)) })];
    expect(levelAt("sensor-distance", { outcomes: measured, facts: { sensorToTank: "6 ft" } })).toBe("near");
    expect(levelAt("sensor-distance", { outcomes: measured, facts: { sensorToTank: undefined } })).toBe("far");
    expect(levelAt("sensor-distance", { facts: { sensorToTank: undefined } })).toBeNull();
    expect(levelAt("sensor-distance", { only: [], facts: { sensorToTank: undefined } })).toBeNull();
  });
});

describe("the swing of a switch", () => {
  const of = (height: number, facts: object) =>
    levelAt("oscillation", { outcomes: swings({ s: 3600, psi: height, by: "unknown" }), facts: { ...facts } });
  test("between its start and its stop is the saw-tooth itself; a smaller or a larger one is not, nor is a drive's", () => {
    expect([13, 15, 27, 29].map((height) => of(height, SWITCHED))).toEqual(["large", "none", "none", "large"]);
    expect(of(20, {})).toBe("large");
    expect(of(20, { ...SWITCHED, cutOut: undefined })).toBe("large");
  });
});

describe("a swing within the runs", () => {
  const at = (run: readonly [number, number][], drawn: Drawn = {}) =>
    levelAt("swing-in-runs", { outcomes: swings({ s: 3600, period: 20 }), pump: { ...pumpWith(run), basis: "running" }, ...drawn });
  test("is there for eight periods of one run and more, for half of its time", () => {
    expect(at([[0, 1e6]])).toBe("within");
    expect(at(Array.from({ length: 10_000 }, (_, i) => [i * 100, 60] as [number, number]))).toBe("from-stop-to-stop");
  });
  test("is not asked without one, nor where only pressure or flow tell of the runs", () => {
    expect(at([[0, 4000]], { outcomes: [] })).toBeNull();
    for (const basis of ["pressure", "flow"] as const) expect(at([], { pump: { ...pumpWith([[0, 4000]]), basis } })).toBeNull();
    expect(at([], { pump: null })).toBeNull();
  });
});
