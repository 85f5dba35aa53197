import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import type { DriftWindow, LeakDownFinding, Outcome, TrackingFinding } from "../../../../shared/findings/finding";
import type { DrawState } from "../../../../shared/findings/segment";
import { pascalDifference } from "../../../../shared/units/pressure";
import { type CubicMetrePerSecond, seconds } from "../../../../shared/units/quantity";
import { levelAt, lookAt, SWITCHED } from "../../../builders/look-at";
import {
  about,
  channelOf,
  clearOf,
  cyclesOf,
  foundWith,
  gpm,
  psi,
  psiDifference,
  pumpWith,
  recordOf,
  SITE_AS_WRITTEN,
  segmentsWith,
  siteOf,
  untold,
} from "../../../builders/outcomes";
import { span } from "../../../builders/trace";

const tracking = (change: Partial<TrackingFinding>) => [foundWith("tracking", change)];
const hours = (h: number) => recordOf(undefined, h);

describe("drift", () => {
  const window = (change: number, over: boolean): DriftWindow => ({
    ...span(0, 600),
    meanFlow: gpm(5),
    change: about(psiDifference(change)),
    over,
  });
  test("over where one window is; the largest move either way is told", () => {
    const windows = [window(2, false), window(-7, true), window(1, false)];
    expect(lookAt("drift", { outcomes: [foundWith("drift", { windows })] })).toEqual({
      level: "over",
      numbers: { limit: psiDifference(5), largest: psiDifference(7), over: 1, windows: 3 },
    });
    expect(lookAt("drift", { outcomes: [foundWith("drift", { windows: windows.slice(2) })] })).toEqual({
      level: "within",
      numbers: { limit: psiDifference(5), largest: psiDifference(1), over: 0, windows: 1 },
    });
  });
  test("within where the detector is clear; not said without a window", () => {
    expect(lookAt("drift", { only: [clearOf("drift")] })).toEqual({ level: "within", numbers: { limit: psiDifference(5) } });
    expect(lookAt("drift", { only: [foundWith("drift")] })).toBeNull();
    expect(lookAt("drift", { only: [] })).toBeNull();
  });
});

describe("droop at the highest flow (30 gpm) against the set pressure (52 psi)", () => {
  const at = (share: number, facts: object = {}) =>
    lookAt("droop", {
      only: [...tracking({ droop: about((share * psi(52)) / gpm(30)) }), foundWith("pump-performance", { peakFlow: gpm(30) })],
      facts: { ...facts },
    });
  test("steep over twelve hundredths", () => {
    expect([0.119, 0.121].map((s) => at(s)?.level)).toEqual(["little", "steep"]);
    expect(at(0.1)?.numbers).toEqual({ fall: expect.closeTo(psi(5.2), 3), flow: gpm(30), setPressure: psi(52) });
  });
  test("not of a switch, nor without droop, flow or set pressure", () => {
    expect(at(0.2, SWITCHED)).toBeNull();
    expect(lookAt("droop")).toBeNull();
    expect(lookAt("droop", { only: tracking({ droop: about(9) }) })).toBeNull();
    expect(lookAt("droop", { only: [foundWith("pump-performance")] })).toBeNull();
    const without = [...tracking({ droop: about(9), setPressure: null }), foundWith("pump-performance")];
    expect(lookAt("droop", { only: without, facts: { setPressure: undefined } })).toBeNull();
    expect(
      lookAt("droop", {
        only: [...tracking({ droop: about(9), setPressure: psi(0) }), foundWith("pump-performance")],
        facts: { setPressure: undefined },
      }),
    ).toBeNull();
  });
});

describe("dips", () => {
  const at = (share: number, recovery: number | null = 5, facts: object = {}) =>
    lookAt("dips", {
      only: tracking({
        worstDip: { at: seconds(9), depth: pascalDifference(psi(52) * share), recovery: recovery === null ? null : seconds(recovery) },
      }),
      facts: { ...facts },
    });
  test("shallow under a quarter of the set pressure; deep, and slow where it takes a minute or is not over", () => {
    expect([0.249, 0.251].map((s) => at(s)?.level)).toEqual(["shallow", "deep"]);
    expect([59, 60, null].map((r) => at(0.3, r)?.level)).toEqual(["deep", "deep-and-slow", "deep-and-slow"]);
    expect(at(0.25)?.numbers).toEqual({ depth: psi(52) * 0.25, setPressure: psi(52), recovery: 5 });
    expect(at(0.3, null)?.numbers.recovery).toBe("not-recorded");
  });
  test("not of a switch, nor without a dip or a set pressure", () => {
    expect(at(0.3, 5, SWITCHED)).toBeNull();
    expect(lookAt("dips", { only: tracking({ worstDip: null }) })).toBeNull();
    expect(lookAt("dips", { only: tracking({ setPressure: null }), facts: { setPressure: undefined } })).toBeNull();
    expect(lookAt("dips", { only: tracking({ setPressure: psi(0) }), facts: { setPressure: undefined } })).toBeNull();
  });
});

describe("quiet times", () => {
  const idle = (...spans: (readonly [number, number])[]): DrawState => ({
    basis: "flow",
    draws: [],
    idle: spans.map(([a, b]) => span(a, b)),
  });
  // a draw of 2 to 12 gpm at all times, over a floor of 3 gpm of which the meter shows a fifth of the record, or over none
  const drawn = (floor: number) =>
    recordOf(
      [
        channelOf(
          "flow",
          "flow",
          Array.from({ length: 1000 }, (_, i) => gpm(floor + (floor > 0 && i % 5 === 0 ? 0 : 2 + (i % 101) / 10))),
          86.4,
        ),
      ],
      24,
    );
  const at = (seconds: number, floor: number) =>
    lookAt("quiet-times", {
      pump: cyclesOf(20, 60, 600),
      draw: idle([0, seconds / 2], [9000, 9000 + seconds / 2]),
      record: drawn(floor),
    });
  test("none where they come to less than a hundredth of the record and the least flow is one and the same", () => {
    expect([863, 865].map((s) => at(s, 3)?.level)).toEqual(["none", "some"]);
    expect(at(900, 3)?.numbers).toEqual({ idle: 900 });
  });
  test("a site that always draws, now more and now less, tells nothing", () => {
    expect([863, 865].map((s) => at(s, 0)?.level)).toEqual([undefined, "some"]);
  });
  test("a meter before the tank shows nothing in every rest: that is no quiet", () => {
    const drawn = { pump: cyclesOf(20, 60, 600), draw: { ...idle([0, 9000]), basis: "flow" as const } };
    expect(levelAt("quiet-times", drawn)).toBe("some");
    const segments = {
      ...segmentsWith(drawn.pump, drawn.draw),
      meter: { place: "before-tank" as const, from: "log" as const, certainty: 1 },
    };
    expect(LOOKS["quiet-times"]({ outcomes: [], segments, site: siteOf(SITE_AS_WRITTEN), record: recordOf() })).toBeNull();
  });
  test("in three hours and more, by draws and a pump that switches", () => {
    const at = (h: number) => levelAt("quiet-times", { pump: cyclesOf(20, 60, 600), draw: idle([0, 600]), record: hours(h) });
    expect([2.9, 3].map(at)).toEqual([null, "some"]);
    expect(levelAt("quiet-times", { pump: pumpWith([]), draw: idle([0, 9000]) })).toBeNull();
    expect(levelAt("quiet-times", { draw: idle([0, 9000]) })).toBeNull();
    expect(levelAt("quiet-times", { pump: cyclesOf(20, 60, 600), draw: null })).toBeNull();
  });
});

describe("leak", () => {
  const leak = (change: Partial<LeakDownFinding>) => [foundWith("leak-down", change)];
  const open = (
    detail: Record<string, number>,
    kind: "leak-down" | "drift" = "leak-down",
    state: "cannot-tell" | "clear" = "cannot-tell",
  ) => ({ kind, state, because: [{ id: "site-fact-missing", about: "leak", detail }], limits: [] }) as unknown as Outcome;
  test("present where its whole interval is a loss, with its flow", () => {
    expect(lookAt("leak-down", { only: leak({ flow: about(gpm(0.4), 10) }) })).toEqual({ level: "present", numbers: { flow: gpm(0.4) } });
    expect(lookAt("leak-down", { only: leak({ flow: about(gpm(0.4), 100) }) })).toEqual({ level: "none", numbers: {} });
    expect(lookAt("leak-down", { only: [clearOf("leak-down")] })).toEqual({ level: "none", numbers: {} });
  });
  test("of which neither the amount nor whether it goes on can be told, nothing is said", () => {
    expect(lookAt("leak-down", { only: [open({ risePerPaS: 1 })] })).toBeNull();
    expect(lookAt("leak-down", { only: [open({ other: 1 })] })).toBeNull();
    expect(lookAt("leak-down", { only: [open({ risePerPaS: 1 }, "drift")] })).toBeNull();
    expect(lookAt("leak-down", { only: [untold("leak-down")] })).toBeNull();
    expect(lookAt("leak-down", { only: [] })).toBeNull();
  });
  test("on the side that the meter tells", () => {
    for (const side of ["system", "back", "unknown"] as const)
      expect(lookAt("leak-side", { only: leak({ side }) })).toEqual({ level: side, numbers: { flow: gpm(0.4) } });
    expect(lookAt("leak-side", { only: leak({ flow: about(gpm(0.4), 100) }) })).toBeNull();
    expect(lookAt("leak-side", { only: [] })).toBeNull();
  });
  test("at night: over a fiftieth of the highest flow (30 gpm)", () => {
    const at = (night: CubicMetrePerSecond | null, peak: CubicMetrePerSecond | null = gpm(30)) =>
      lookAt("night-flow", { only: [...leak({ minimumNightFlow: night }), foundWith("pump-performance", { peakFlow: peak })] });
    expect([0.59, 0.61].map((q) => at(gpm(q))?.level)).toEqual(["none", "present"]);
    expect(at(gpm(1))?.numbers).toEqual({ night: gpm(1), peak: gpm(30) });
    expect(at(null)).toBeNull();
    expect(at(gpm(1), null)).toBeNull();
    expect(at(gpm(1), gpm(0))).toBeNull();
    expect(lookAt("night-flow", { only: [foundWith("pump-performance")] })).toBeNull();
    expect(lookAt("night-flow", { only: leak({ minimumNightFlow: gpm(1) }) })).toBeNull();
  });
});
