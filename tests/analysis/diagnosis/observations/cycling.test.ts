import { describe, expect, test } from "vitest";
import type { CyclingFinding } from "../../../../shared/findings/finding";
import type { PumpState } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { levelAt, lookAt, SWITCHED } from "../../../builders/look-at";
import { about, channelOf, clearOf, cyclesOf, foundWith, oddCycles, psi, pumpWith, recordOf, untold } from "../../../builders/outcomes";

const cycling = (change: Partial<CyclingFinding>) => [foundWith("cycling", change)];
const PUMP = oddCycles(24, 300);
const hours = (h: number) => recordOf(undefined, h);

describe("the kind of pump", () => {
  test("as stated, else by the facts that only a switch has", () => {
    expect(levelAt("pump-kind")).toBe("drive");
    expect(levelAt("pump-kind", { facts: SWITCHED })).toBe("switch");
    const unsaid = { ...SWITCHED, pump: undefined };
    expect(levelAt("pump-kind", { facts: unsaid })).toBe("switch");
    for (const less of [{ cutIn: undefined }, { cutOut: undefined }])
      expect(levelAt("pump-kind", { facts: { ...unsaid, ...less } }), JSON.stringify(less)).toBe("switch");
    for (const other of [{ setPressure: "50 psi" }, { restartPressure: "45 psi" }, { cutIn: undefined, cutOut: undefined }])
      expect(levelAt("pump-kind", { facts: { ...unsaid, ...other } }), JSON.stringify(other)).toBeNull();
  });
});

describe("starts against those allowed", () => {
  const at = (
    peak: number,
    facts: object = { pump: undefined, limits: { startsPerHour: 10 } },
    change: Partial<CyclingFinding> = {},
    record = hours(24),
  ) => levelAt("starts", { outcomes: cycling({ peakStartsPerHour: peak, ...change }), pump: PUMP, facts: { ...facts }, record });
  test("under the limit, to three times it, and over", () => {
    expect([9, 10, 29, 30].map((n) => at(n))).toEqual(["few", "many", "many", "very-many"]);
    expect(
      lookAt("starts", {
        outcomes: cycling({ peakStartsPerHour: 5 }),
        pump: PUMP,
        facts: { pump: undefined, limits: { startsPerHour: 10 } },
      })?.numbers,
    ).toEqual({
      perHour: 5,
      allowed: 10,
    });
  });
  test("a switch's motor by practice, and a third more; fifteen where its power is not known; a drive's short runs speak for its starts", () => {
    expect([11, 12].map((n) => at(n, SWITCHED, { allowedStartsPerHour: 8.5 }))).toEqual(["few", "many"]);
    expect([19, 20].map((n) => at(n, SWITCHED))).toEqual(["few", "many"]);
    expect([14, 15].map((n) => at(n, { pump: undefined }))).toEqual(["few", "many"]);
    expect([14, 15].map((n) => at(n, { pump: undefined }, { allowedStartsPerHour: 2 }))).toEqual(["few", "many"]);
    expect(at(99, {}, { allowedStartsPerHour: 8 })).toBeNull();
    const withSpeed = recordOf([...hours(24).channels, channelOf("speed", "fraction", new Array(1440).fill(0.7), 60)], 24);
    expect(at(99, { pump: undefined }, {}, withSpeed)).toBeNull();
    expect(at(99, { limits: { startsPerHour: 10 } })).toBeNull();
  });
  test("in a record of less than an hour the rate counts too; under half an hour nothing is said", () => {
    const rate = { startsPerHour: about(40) };
    expect(at(1, undefined, rate, hours(0.9))).toBe("very-many");
    expect(at(1, undefined, { startsPerHour: null }, hours(0.9))).toBe("few");
    expect(at(1, undefined, rate, hours(1))).toBe("few");
    expect(at(50, undefined, {}, hours(0.5))).toBe("very-many");
    expect(at(50, undefined, {}, hours(0.49))).toBeNull();
  });
  test("nothing where starts were not counted or the pump's state is not known", () => {
    expect(levelAt("starts", { only: [], pump: PUMP, facts: { limits: { startsPerHour: 10 } } })).toBeNull();
    expect(levelAt("starts", { outcomes: cycling({ peakStartsPerHour: 50 }), facts: { limits: { startsPerHour: 10 } } })).toBeNull();
  });
});

describe("how long it ran", () => {
  const short = (n: number, low = n, high = n) => [
    foundWith("short-cycles", { runs: Array.from({ length: n }, (_, i) => i), count: { value: n, low, high } }),
  ];
  const at = (n: number, of = 100) => levelAt("runs", { outcomes: short(n), pump: cyclesOf(of, 30, 300) });
  test("a twentieth of the runs short is some, half of them is most", () => {
    expect([4, 5, 49, 50].map((n) => at(n))).toEqual(["long", "some-short", "some-short", "mostly-short"]);
  });
  test("with a switch a run is short under three quarters of the limit: its pump gives up to a third more than its rating", () => {
    const of = (seconds: number) => levelAt("runs", { outcomes: short(99), pump: cyclesOf(100, seconds, 300), facts: SWITCHED });
    expect([44, 46].map(of)).toEqual(["mostly-short", "long"]);
  });
  test("none short where the detector is clear; nothing where it could not tell, nor by fewer than four whole runs", () => {
    expect(levelAt("runs", { outcomes: [clearOf("short-cycles")], pump: PUMP })).toBe("long");
    expect(levelAt("runs", { outcomes: [untold("short-cycles")], pump: PUMP })).toBeNull();
    expect([3, 4].map((of) => at(0, of))).toEqual([null, "long"]);
    const pump = cyclesOf(10, 30, 300);
    const cut: PumpState = { ...pump, runs: pump.runs.map((run, i) => ({ ...run, complete: i < 3 })) };
    expect(levelAt("runs", { outcomes: short(1), pump: cut })).toBeNull();
  });
  test("nothing where so many runs lie within an interval of the limit that they may be most, or hardly any", () => {
    const between = (low: number, high: number) => levelAt("runs", { outcomes: short(60, low, high), pump: cyclesOf(100, 30, 300) });
    expect(between(55, 70)).toBe("mostly-short");
    expect(between(16, 70)).toBeNull();
  });
  test("says how many, of how many, under which limit", () => {
    expect(lookAt("runs", { outcomes: short(25), pump: cyclesOf(100, 30, 300) })?.numbers).toEqual({
      short: 25,
      complete: 100,
      limit: 60,
      share: 0.25,
    });
  });
  test("never stops: always running, or all but three hundredths of the time that it was watched", () => {
    const day = 24 * 3600;
    expect(lookAt("runs", { pump: pumpWith([]), facts: SWITCHED })).toEqual({ level: "never-stops", numbers: { duration: day } });
    expect(levelAt("runs", { pump: pumpWith([]) })).toBeNull(); // a drive runs as long as something is drawn
    const ran = (share: number) => levelAt("runs", { pump: pumpWith([[0, share * day]]), facts: SWITCHED });
    expect(ran(0.975)).toBe("never-stops");
    expect(ran(0.965)).toBeNull();
    expect(levelAt("runs", { pump: { ...pumpWith([[0, day]]), mode: "always-stopped" } })).toBeNull();
  });
  test("not in half an hour, nor without the pump's state", () => {
    expect(levelAt("runs", { outcomes: short(1), pump: PUMP, record: hours(0.49) })).toBeNull();
    expect(levelAt("runs", { outcomes: short(1), pump: PUMP, record: hours(0.5) })).not.toBeNull();
    expect(levelAt("runs", { outcomes: short(1) })).toBeNull();
  });
});

describe("what starts go with", () => {
  const draw = { basis: "flow" as const, draws: [], idle: [] };
  const by = (none: number, small: number, large: number) => ({ outcomes: cycling({ startsByDraw: { none, small, large } }), draw });
  test("often without a draw: over three of ten", () => {
    expect([by(3, 3, 4), by(4, 3, 3)].map((d) => levelAt("starts-without-draw", d))).toEqual(["rare", "often"]);
    expect(lookAt("starts-without-draw", by(4, 3, 3))?.numbers).toEqual({ count: 4, total: 10, share: 0.4 });
  });
  test("often in small draws: over half", () => {
    expect([by(0, 5, 5), by(0, 6, 4)].map((d) => levelAt("starts-in-small-draws", d))).toEqual(["rare", "often"]);
    expect(lookAt("starts-in-small-draws", by(2, 6, 2))?.numbers).toEqual({ count: 6, total: 10, share: 0.6 });
  });
  test.each(["starts-without-draw", "starts-in-small-draws"] as const)("%s: by four starts and a meter", (id) => {
    expect(levelAt(id, by(1, 1, 1))).toBeNull();
    expect(levelAt(id, by(2, 1, 1))).not.toBeNull();
    expect(levelAt(id, { ...by(4, 3, 3), draw: { ...draw, basis: "pressure" } })).toBeNull();
    expect(levelAt(id, { ...by(4, 3, 3), draw: null })).toBeNull();
    expect(levelAt(id, { outcomes: cycling({ startsByDraw: null }), draw })).toBeNull();
    expect(levelAt(id, { only: [], draw })).toBeNull();
  });
});

describe("the shortest cycle against the one that the tank allows", () => {
  const at = (expected: number | null, pump: PumpState | null, id = "cycle-against-tank" as const) =>
    lookAt(id, { outcomes: cycling({ expectedShortestCycle: expected === null ? null : seconds(expected) }), pump });
  test("shorter is under half of it", () => {
    // Cycles of 100 s.
    expect(at(199, cyclesOf(20, 30, 70))).toEqual({ level: "as-allowed", numbers: { shortest: 100, expected: 199 } });
    expect(at(200, cyclesOf(20, 30, 70))?.level).toBe("as-allowed");
    expect(at(201, cyclesOf(20, 30, 70))?.level).toBe("shorter");
  });
  test("one odd cycle of many does not decide: the tenth part from below does", () => {
    const odd = pumpWith([[0, 10], ...Array.from({ length: 20 }, (_, i) => [20 + 100 * i, 30] as const)]);
    expect(at(150, odd)?.numbers.shortest).toBe(100);
  });
  test("by six cycles whose run was whole, and a known tank", () => {
    expect(at(201, cyclesOf(6, 30, 70))).toBeNull();
    expect(at(201, cyclesOf(7, 30, 70))).not.toBeNull();
    const pump = cyclesOf(7, 30, 70);
    expect(at(201, { ...pump, runs: pump.runs.map((run, i) => ({ ...run, complete: i > 0 })) })).toBeNull();
    expect(at(null, cyclesOf(20, 30, 70))).toBeNull();
    expect(at(0, cyclesOf(20, 30, 70))).toBeNull();
    expect(at(201, null)).toBeNull();
  });
});

describe("the rhythm of starts", () => {
  test("even ones are regular, by twelve of them", () => {
    expect(lookAt("start-rhythm", { pump: cyclesOf(12, 30, 70) })).toMatchObject({ level: "regular", numbers: { gap: 100, share: 1 } });
    expect(levelAt("start-rhythm", { pump: cyclesOf(11, 30, 70) })).toBeNull();
    expect(levelAt("start-rhythm", { pump: oddCycles(24, 300) })).toBe("irregular");
    expect(levelAt("start-rhythm")).toBeNull();
  });
});

describe("between stop and start of a drive", () => {
  const at = (band: number | null, facts: object = {}, cutIn = 40) =>
    lookAt("switching-band", {
      outcomes: cycling({ cutIn: about(psi(cutIn)), cutOut: band === null ? null : about(psi(cutIn + band)) }),
      facts: { ...facts },
    });
  test("narrow under a twentieth of the set pressure, wide from 35 hundredths", () => {
    // 52 psi: 2.6 and 18.2 psi.
    expect([2.5, 2.7, 18.1, 18.3].map((band) => at(band)?.level)).toEqual(["narrow", "usual", "usual", "wide"]);
    expect(at(10)?.numbers).toEqual({ band: expect.closeTo(psi(10), 3), setPressure: psi(52) });
  });
  test("not of a switch, whose band is its setting, nor without both pressures", () => {
    expect(at(10, SWITCHED)).toBeNull();
    expect(at(null)).toBeNull();
    expect(lookAt("switching-band", { outcomes: cycling({ cutOut: about(psi(50)) }) })).toBeNull();
    expect(lookAt("switching-band", { only: [] })).toBeNull();
  });
  test("where no set pressure is stated, against the one that the log keeps to", () => {
    expect(at(10, { setPressure: undefined })?.numbers.setPressure).toBe(psi(52));
    expect(
      lookAt("switching-band", { only: cycling({ cutIn: about(psi(40)), cutOut: about(psi(50)) }), facts: { setPressure: undefined } }),
    ).toBeNull();
  });
});
