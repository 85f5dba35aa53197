import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import type { SensorFinding, TrackingFinding } from "../../../../shared/findings/finding";
import { isCannotTell, type PumpState } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
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
  recordOf,
  usualChannels,
} from "../../../builders/outcomes";
import { span } from "../../../builders/trace";
import { running, type Worked, workedHours } from "../../../builders/worked-hours";

const sensor = (change: Partial<SensorFinding>) => [foundWith("sensor", change)];

test("noise: over three tenths of the band (3 psi)", () => {
  const at = (noise: number | null) => lookAt("noise", { only: sensor({ noise: noise === null ? null : psiDifference(noise) }) });
  expect([0.89, 0.91].map((n) => at(n)?.level)).toEqual(["quiet", "noisy"]);
  expect(at(1)?.numbers).toEqual({ noise: psiDifference(1), band: psiDifference(3) });
  expect(at(null)).toBeNull();
  expect(lookAt("noise", { only: [] })).toBeNull();
});
test("noise with flow: as the detector says; not known, not said", () => {
  const at = (grows: boolean | null) => lookAt("noise-with-flow", { only: sensor({ noiseGrowsWithFlow: grows }) });
  expect(at(true)).toEqual({ level: "grows", numbers: {} });
  expect(at(false)).toEqual({ level: "steady", numbers: {} });
  expect(at(null)).toBeNull();
  expect(lookAt("noise-with-flow", { only: [] })).toBeNull();
});
/** A pressure read every so many seconds. */
const fast = (step: number) => recordOf([channelOf("pressure", "gaugePressure", Array(100).fill(psi(52)), step)]);
test("lag: slow from three seconds, where it is longer than the logger may take from one channel of a row to the other", () => {
  const at = (lag: number, step = 2) => lookAt("sensor-lag", { only: sensor({ lag: about(seconds(lag)) }), record: fast(step) });
  expect([2.99, 3].map((s) => at(s)?.level)).toEqual(["prompt", "slow"]);
  expect(at(4)?.numbers).toEqual({ lag: 4 });
  expect([2.99, 4.5, 5.2, 5.3].map((s) => at(s, 5)?.level ?? null)).toEqual(["prompt", null, null, "slow"]); // 5.2 is known from 4.94 s on
  expect(lookAt("sensor-lag", { only: sensor({ lag: about(seconds(12)) }), record: fast(10) })).toBeNull(); // known to a sample only
  expect(lookAt("sensor-lag", { only: sensor({ lag: null }) })).toBeNull();
  expect(lookAt("sensor-lag", { only: [] })).toBeNull();
});
test("scale: off by the ratio; as expected only where a set pressure would have shown it", () => {
  expect(lookAt("sensor-scale", { only: sensor({ scaleRatio: 1.5 }) })).toEqual({ level: "off", numbers: { ratio: 1.5 } });
  expect(lookAt("sensor-scale", { only: sensor({}) })).toEqual({ level: "as-expected", numbers: {} });
  expect(levelAt("sensor-scale", { only: [clearOf("sensor")] })).toBe("as-expected");
  expect(levelAt("sensor-scale", { only: sensor({}), facts: { setPressure: undefined } })).toBeNull();
  expect(levelAt("sensor-scale", { only: [] })).toBeNull();
});
test("pinned: for how long", () => {
  expect(lookAt("sensor-pinned", { only: sensor({ pinned: [span(0, 5), span(10, 17)] }) })).toEqual({
    level: "yes",
    numbers: { pinned: 12 },
  });
  expect(lookAt("sensor-pinned", { only: [clearOf("sensor")] })).toEqual({ level: "no", numbers: { pinned: 0 } });
  expect(levelAt("sensor-pinned", { only: [] })).toBeNull();
});

describe("stuck", () => {
  const [pressure, flow] = usualChannels();
  // Water is drawn in the first ten minutes of each hour.
  const at = (
    change: Partial<SensorFinding>,
    {
      pump = null,
      channels = [pressure, flow],
      peak = gpm(30) as number | null,
    }: { pump?: PumpState | null; channels?: (typeof pressure)[]; peak?: number | null } = {},
  ) =>
    lookAt("sensor-stuck", {
      only: [...sensor(change), ...(peak === null ? [] : [foundWith("pump-performance", { peakFlow: gpm(30) })])],
      pump,
      record: recordOf(channels),
    });
  test("while the flow changed, and for how long", () => {
    expect(at({ stuck: [span(3000, 3900), span(7200, 7260)] })).toEqual({ level: "stuck", numbers: { stuck: 900, frozen: 0 } });
    // The pump starts and stops in the first hours and the pressure moves with it: it is alive. In the thirteenth hour nothing moves.
    const pump = cyclesOf(10, 100, 900);
    expect(at({ stuck: [span(51_100, 53_000)] }, { pump })).toEqual({ level: "no", numbers: { stuck: 0, frozen: 0 } });
    expect(at({ stuck: [span(51_100, 53_000)] })).toBeNull();
  });
  test("by three tenths of the highest flow, well within the stretch", () => {
    const flowing = (q: number, from: number, to: number) => channelOf("flow", "flow", Array.from({ length: 5760 }, (_, i) => (i * 15 >= from && i * 15 < to ? gpm(q) : 0)), 15); // biome-ignore format: one channel
    const level = (q: number, from: number, to: number) =>
      at({ stuck: [span(3000, 3600)] }, { channels: [pressure, flowing(q, from, to)] })?.level;
    expect(level(9.1, 3200, 3400)).toBe("stuck");
    expect(level(8.9, 3200, 3400)).not.toBe("stuck");
    expect(level(9.1, 3000, 3015)).not.toBe("stuck");
    expect(level(9.1, 3585, 3600)).not.toBe("stuck");
    expect(level(9.1, 3000, 3600)).not.toBe("stuck"); // held as it was
  });
  test("or while the pump started or stopped by another witness than pressure", () => {
    const pump = { ...cyclesOf(1, 100, 0), runs: [{ from: seconds(5500), to: seconds(5600), complete: true }] };
    const still = { stuck: [span(5000, 6000)] };
    expect(at(still, { pump })?.level).toBe("stuck");
    expect(at(still, { pump: { ...pump, basis: "pressure" } })?.level).not.toBe("stuck");
    expect(at({ stuck: [span(5600, 6000)] }, { pump })?.level).not.toBe("stuck");
    expect(at({ stuck: [span(5000, 5500)] }, { pump })?.level).not.toBe("stuck");
    expect(at({ stuck: [span(5586, 6000)] }, { pump })?.level).not.toBe("stuck");
    expect(at({ stuck: [span(5584, 6000)] }, { pump })?.level).toBe("stuck");
  });
  test("frozen comes before stuck", () => {
    expect(at({ stuck: [span(3000, 3900)], frozen: [span(0, 50)] })).toEqual({ level: "frozen", numbers: { stuck: 900, frozen: 50 } });
  });
  test("not said where nothing shows that the pressure should have moved", () => {
    expect(at({}, { channels: [pressure] })).toBeNull();
    expect(at({}, { channels: [pressure], pump: { ...cyclesOf(9, 100, 900), basis: "pressure" } })).toBeNull();
    expect(at({}, { channels: [flow] })).toBeNull();
    expect(at({}, { channels: [pressure], pump: cyclesOf(60, 100, 900) })?.level).toBe("no");
    expect(levelAt("sensor-stuck", { only: [] })).toBeNull();
    expect(levelAt("sensor-stuck", { only: [clearOf("sensor")], pump: cyclesOf(60, 100, 900) })).toBe("no");
  });
});

describe("the held pressure against the set one (52 psi)", () => {
  const at = (share: number | null, facts: object = {}, change: Partial<TrackingFinding> = {}) =>
    lookAt("held-pressure", {
      only: [foundWith("tracking", { meanError: share === null ? null : psiDifference(52 * share), ...change })],
      facts: { ...facts },
    });
  test("short of it by over three hundredths, over it by seven", () => {
    expect([-0.031, -0.029, 0.069, 0.071].map((s) => at(s)?.level)).toEqual(["below", "at-set", "at-set", "above"]);
    expect(at(0.01)?.numbers).toEqual({ error: psiDifference(0.52), setPressure: psi(52) });
  });
  test("of a drive whose set pressure is stated only", () => {
    expect(at(0.1, SWITCHED)).toBeNull();
    expect(at(0.1, { ...SWITCHED, setPressure: "52 psi" })).toBeNull();
    expect(at(0.1, {}, { setPressureFrom: "log" })).toBeNull();
    expect(at(null)).toBeNull();
    expect(lookAt("held-pressure", { only: [] })).toBeNull();
    expect(at(0.1, { setPressure: undefined }, { setPressure: null })).toBeNull();
    expect(at(0.1, { setPressure: undefined }, { setPressure: psi(0) })).toBeNull();
  });
});

describe("stuck while the tank gave water (20 gal, 10 gpm through five minutes of rest)", () => {
  /** At rest the reading stands; in a run it rises by hundredths, so that no start leaves it where it was. */
  const at = ({ flow = () => 10, ...worked }: Partial<Worked> = {}, basis: PumpState["basis"] = "speed", peak: number | null = gpm(30)) => {
    const sight = workedHours({ pressure: (k) => (running(k) ? 47 + 0.01 * (k - 300) : 52), flow, ...worked });
    const { pump } = sight.segments;
    const segments = { ...sight.segments, pump: isCannotTell(pump) ? pump : { ...pump, basis } };
    const peakFlow = [foundWith("pump-performance", { peakFlow: peak === null ? null : gpm(30) })];
    return LOOKS["sensor-stuck"]({ ...sight, segments, outcomes: [...sensor({}), ...peakFlow] });
  };
  test("for as long as it stood at rest, 299 s and eleven times 298 s", () => {
    expect(at()).toEqual({ level: "stuck", numbers: { stuck: 299 + 11 * 298, frozen: 0 } });
  });
  test("three hundredths of the highest flow pass for certain", () => {
    expect([0.88, 0.92].map((flow) => at({ flow: () => flow })?.level)).toEqual(["no", "stuck"]);
  });
  test("a tank that no one wrote down holds a minute of the pump's rating at most, 40 gal; without either it may be of any size", () => {
    // Boyle: dp >= p V / Vt, with 66.7 psi absolute; three times 2.1 steps of 0.01 psi must show: from 0.28 gal out of 300 gal on.
    const drawing = (gallons: number) => (k: number) => (k >= 100 && k <= 110 ? 6 * gallons : 0);
    const large = { tankVolume: "300 gal" };
    expect([0.25, 0.32].map((gallons) => at({ flow: drawing(gallons), facts: large })?.level)).toEqual(["no", "stuck"]);
    const unknown = { tankVolume: undefined };
    expect([0.15, 0.3].map((gallons) => at({ flow: drawing(gallons) })?.level)).toEqual(["no", "stuck"]);
    expect(at({ facts: unknown })?.level).toBe("stuck");
    expect(at({ facts: { ...unknown, pumpRatedFlow: undefined } })?.level).toBe("no");
    // 39.7 gal in the four minutes that count, out of a minute's flow: 42,000 gal show 0.063 psi
    const rated = (flow: string) => at({ facts: { ...unknown, pumpRatedFlow: flow } })?.level;
    expect([rated("35000 gpm"), rated("50000 gpm")]).toEqual(["stuck", "no"]);
  });
  test("not where pressure or flow alone tell when the pump was at rest, nor where the highest flow is not known", () => {
    expect(at({}, "running")?.level).toBe("stuck");
    expect(at({}, "flow")?.level).not.toBe("stuck");
    expect(at({}, "pressure")?.level).not.toBe("stuck");
    expect(at({}, "speed", null)?.level).not.toBe("stuck");
  });
});
