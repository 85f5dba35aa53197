import { describe, expect, test } from "vitest";
import { stretchesOf } from "../../../analysis/faults/observed";
import { findDrawState } from "../../../analysis/segments/draw-state";
import { flowingBy } from "../../../analysis/segments/flowing-by";
import { fallsToStart, idleRests, overlaps } from "../../../analysis/segments/idle-rests";
import { isWithin } from "../../../analysis/segments/is-within";
import { joinPauses } from "../../../analysis/segments/join-pauses";
import { nightsOf } from "../../../analysis/segments/night";
import { leastNightFlow } from "../../../analysis/segments/night-flow";
import { levelStep, noiseOf } from "../../../analysis/segments/pressure-noise";
import { restsOf, startsOf } from "../../../analysis/segments/starts";
import { startsByDraw } from "../../../analysis/segments/starts-by-draw";
import { runsOf, spansBelow } from "../../../analysis/segments/switching";
import { switchingPressures } from "../../../analysis/segments/switching-pressures";
import { cumulativeVolume, volumeBetween } from "../../../analysis/segments/volume";
import type { DrawState, PumpState } from "../../../shared/findings/segment";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { seconds } from "../../../shared/units/quantity";
import { evidenceOf } from "../../builders/known-evidence";
import { at, channel, every, onChange, recordOf } from "../../builders/record";
import { seededRandom, noiseOf as white } from "../../builders/signals";
import { span } from "../../builders/trace";

const H = 3600;
const utc = (y: number, m: number, d: number, h = 0) => Date.UTC(y, m - 1, d, h) / 1000;
type Pairs = readonly (readonly [number, number])[];
const spans = (pairs: Pairs) => pairs.map(([a, b]) => span(a, b));
const pumpOf = (runs: Pairs, observed: Pairs, more: Partial<PumpState> = {}): PumpState => ({
  basis: "running",
  channel: "running",
  mode: "switching",
  runs: runs.map(([a, b]) => ({ ...span(a, b), complete: true })),
  observed: spans(observed),
  separation: null,
  certainty: 1,
  pumps: [],
  ...more,
});

describe("the hours of a night", () => {
  const nights = (zone: string | null, epoch: number, hours: number, from = 1, to = 5) =>
    nightsOf({ kind: "absolute", epoch, zone }, seconds(hours * H), from, to)?.map((n) => [n.from / H, n.to / H]);
  test("by the logger's own stamps, as far as the record goes", () => {
    expect(nights(null, utc(2026, 3, 2), 48)).toEqual([[1, 5], [25, 29]]); // biome-ignore format: nights
    expect(nights(null, utc(2026, 3, 2, 3), 4)).toEqual([[0, 2]]);
    expect(nights(null, utc(2026, 3, 2, 22), 5)).toEqual([[3, 5]]);
    expect(nights(null, utc(2026, 3, 2, 6), 10)).toEqual([]);
  });
  test("in a zone by its offset or its name: Kathmandu is 5:45 ahead of UTC, New York in March 5 h behind it (IANA time zone database)", () => {
    expect(nights("+05:45", utc(2026, 3, 2), 24)).toEqual([[19.25, 23.25]]);
    expect(nights("-0930", utc(2026, 3, 2), 24)).toEqual([[10.5, 14.5]]);
    expect(nights("Asia/Kathmandu", utc(2026, 3, 2), 24)).toEqual([[19.25, 23.25]]);
    expect(nights("America/New_York", utc(2026, 3, 2), 24)).toEqual([[6, 10]]);
    expect(nights("America/New_York", utc(2026, 7, 2), 24)).toEqual([[5, 9]]);
  });
  test("a zone that nobody knows leaves the stamps as they are; a clock of elapsed time knows no night", () => {
    expect(nights("Nowhere/Town", utc(2026, 3, 2), 24)).toEqual([[1, 5]]);
    expect(nightsOf({ kind: "elapsed" }, seconds(9e5), 1, 5)).toBeNull();
    expect(
      nightsOf({ kind: "absolute", epoch: -2.2e9, zone: "Europe/Lisbon" }, seconds(1.7e11), 1, 5),
      "a clock that spans five thousand years",
    ).toBeNull();
  });
  test("the least flow of an hour of them, of several nights the middle one", () => {
    // A flow a minute: 1 L/s by day, at night as given but for one hour from 3:00.
    const least = [2e-4, 5e-4, 3e-4];
    const flow = Array.from({ length: 72 * 60 }, (_, i) => {
      const hour = (i / 60) % 24;
      return hour >= 3 && hour < 4.1 ? least[Math.floor(i / 1440)] : 1e-3;
    });
    const record = (values: readonly number[], epoch = utc(2026, 3, 2)): LogRecord => ({
      ...recordOf([channel("flow", every(60, values.length), values)]),
      clock: { kind: "absolute", epoch, zone: null },
    });
    expect(leastNightFlow(record(flow), [])! / 3e-4).toBeCloseTo(1, 1);
    expect(leastNightFlow(record(flow.slice(0, 1440)), [])! / 2e-4).toBeCloseTo(1, 1);
    expect(leastNightFlow(record(flow.slice(0, 110)), [])).toBeNull(); // fifty minutes of the night are too few
    expect(leastNightFlow(record(flow.slice(600, 1200), utc(2026, 3, 2, 10)), [])).toBeNull();
    expect(leastNightFlow(recordOf([channel("flow", every(60, flow.length), flow)]), [])).toBeNull();
    expect(leastNightFlow({ ...record(flow), channels: [] }, [])).toBeNull();
  });
});

describe("starts and rests", () => {
  const pump = pumpOf([[0, 10], [30, 40], [60, 70], [100, 110]], [[0, 80], [100, 200]]); // biome-ignore format: spans
  test("a run under way when a stretch began has no start", () => expect(startsOf(pump)).toEqual([30, 60]));
  test("a rest lies between two runs of one stretch", () => expect(restsOf(pump)).toEqual(spans([[10, 30], [40, 60]]))); // biome-ignore format: spans
});

describe("quiet rests", () => {
  const draw = (idle: Pairs): DrawState => ({ basis: "flow", draws: [], idle: spans(idle) });
  const rests = (length: number) => pumpOf([[0, 10], [10 + length, 20 + length]], [[0, 900]]); // biome-ignore format: spans
  test("half a minute after the stop, or more where readings are far apart; a minute long at least", () => {
    expect(idleRests(rests(92), draw([[0, 900]]), 2)).toEqual(spans([[40, 100]]));
    expect(idleRests(rests(91), draw([[0, 900]]), 2)).toEqual([]);
    expect(idleRests(rests(300), draw([[0, 900]]), 40)).toEqual(spans([[50, 270]]));
    expect(idleRests(rests(300), draw([[60, 200]]), 2)).toEqual(spans([[90, 198]]));
  });
  test("of a pump that never ran the whole time is one", () => {
    const never = pumpOf([], [[0, 500]], { mode: "always-stopped" });
    expect(idleRests(never, draw([[0, 500]]), 2)).toEqual(spans([[30, 498]]));
  });
  test("falls to a start: ten seconds at least, ended by a start, of a pump that switches", () => {
    expect(fallsToStart(rests(17), draw([[0, 900]]), 2)).toEqual(spans([[15, 25]]));
    expect(fallsToStart(rests(16), draw([[0, 900]]), 2)).toEqual([]);
    expect(fallsToStart(rests(60), draw([[0, 50]]), 2)).toEqual([]);
    expect(fallsToStart({ ...rests(60), mode: "always-running" }, draw([[0, 900]]), 2)).toEqual([]);
  });
  test("the common parts of two lists", () => {
    expect(overlaps(spans([[0, 10], [20, 30]]), spans([[5, 25], [28, 40]]))).toEqual(spans([[5, 10], [20, 25], [28, 30]])); // biome-ignore format: spans
    expect(overlaps(spans([[0, 10]]), spans([[10, 20]]))).toEqual([]);
  });
});

describe("what was drawn before each start", () => {
  // Until the second start at 200 nothing; a small draw before the one at 300, a large one before that at 400.
  const flow = Array.from({ length: 500 }, (_, t) => (t >= 250 && t < 320 ? 2e-4 : t >= 380 && t < 450 ? 6e-4 : 0));
  const counts = (
    facts: object,
    draws: DrawState | null = {
      basis: "flow",
      idle: [],
      draws: [
        [250, 320],
        [380, 450],
      ].map(([a, b]) => ({ ...span(a, b), complete: true, volume: null, peakFlow: null })),
    },
  ) => {
    // biome-ignore format: draws
    const record = recordOf([channel("flow", every(1, 500), flow)]);
    const evidence = evidenceOf(record, draws === null ? {} : { draw: draws }, readSiteFacts(facts, "site"));
    return startsByDraw(evidence, [200, 300, 400, 470].map(seconds));
  };
  test("nothing, little, or a quarter of the pump's flow and more", () => {
    expect(counts({ pumpRatedFlow: "1.6 L/s" })).toEqual({ none: 2, small: 1, large: 1 });
    expect(counts({ pumpRatedFlow: "3 L/s" })).toEqual({ none: 2, small: 2, large: 0 });
    expect(counts({ pumpRatedFlow: "0.7 L/s" })).toEqual({ none: 2, small: 0, large: 2 });
  });
  test("without a rated flow the highest of the record is the pump's", () => expect(counts({})).toEqual({ none: 2, small: 0, large: 2 }));
  test("not known from a pressure's draws, or none", () => {
    expect(counts({}, null)).toBeNull();
    expect(counts({}, { basis: "pressure", draws: [], idle: [] })).toBeNull();
    expect(startsByDraw(evidenceOf(recordOf([])), [])).toBeNull();
  });
});

describe("pressures at starts and stops", () => {
  // Down from 500 to 300 kPa in 100 s, up in 50 s.
  const saw = Array.from({ length: 901 }, (_, i) => (i % 150 < 100 ? 500 - 2 * (i % 150) : 300 + 4 * ((i % 150) - 100)) * 1e3);
  const runs: Pairs = [[100, 150], [250, 300], [400, 450], [550, 600]]; // biome-ignore format: runs
  const of = (values: readonly number[], pairs: Pairs, observed: Pairs = [[0, 900]]) =>
    switchingPressures(pumpOf(pairs, observed), channel("pressure", every(1, values.length), values), []);
  test("the lowest about each start, the highest about each stop: middle and interval", () => {
    const { cutIn, cutOut } = of(saw, runs);
    expect(cutIn).toEqual({ value: 300e3, low: 300e3, high: 300e3 });
    expect(cutOut).toEqual({ value: 500e3, low: 500e3, high: 500e3 });
  });
  test("of two at least; not of a start or stop at the border of what was seen", () => {
    expect(of(saw, runs.slice(0, 1))).toEqual({ cutIn: null, cutOut: null });
    expect(of(saw, runs.slice(0, 2), [[100, 300]])).toEqual({ cutIn: null, cutOut: null });
  });
  test("missing readings are passed over; where all about an instant are missing it counts for nothing", () => {
    const holed = saw.map((p, i) => (Math.abs(i - 250) < 9 || i === 100 ? Number.NaN : p));
    expect(of(holed, runs).cutIn!.value / 1e3).toBeCloseTo(300, -1);
    expect(of(holed, [[250, 300], [400, 450]]).cutIn).toBeNull(); // biome-ignore format: runs
  });
});

describe("pauses of a pump that ran on against a closed check valve", () => {
  // Started at 300 kPa, stopped at 500; after 150 s of flow a pause in which the pressure stays high.
  const runs: Pairs = [[100, 200], [300, 400], [410, 450], [600, 700], [800, 900]]; // biome-ignore format: runs
  const pressure = Array.from({ length: 1000 }, (_, t) => {
    const run = runs.findIndex(([a, b]) => t >= a && t <= b);
    if (run < 0) return t > 400 && t < 410 ? 480e3 : 400e3;
    const [a, b] = runs[run];
    const from = run === 2 ? 470e3 : 300e3;
    return from + ((500e3 - from) * (t - a)) / (b - a);
  });
  const joined = (state: PumpState, values: readonly number[] | null = pressure, restart: number | null = null) =>
    joinPauses(state, recordOf(values === null ? [] : [channel("pressure", every(1, values.length), values)]), [], restart).runs.map(
      ({ from, to }) => [from, to],
    );
  test("are taken out where flow comes back well above the starting pressure", () => {
    expect(joined(pumpOf(runs, [[0, 1000]]))).toEqual([[100, 200], [300, 450], [600, 700], [800, 900]]); // biome-ignore format: runs
  });
  test("where waves outnumber starts, by the restart pressure that is told: a wave's low well above it is no start", () => {
    // starts at 300 kPa; a hot loop whose waves come down to 440 kPa shuts the valve twenty times in each of five runs
    const cycle = Array.from({ length: 600 }, (_, t) => {
      if (t < 100) return 500e3 - 2e3 * t;
      return t < 200 ? 300e3 + 2e3 * (t - 100) : 470e3 + 30e3 * Math.sin((2 * Math.PI * (t - 195)) / 20);
    });
    const values = Array.from({ length: 3000 }, (_, t) => cycle[t % 600]);
    const flows: Pairs = Array.from({ length: 5 }, (_, k) => k * 600).flatMap((at) => [
      [at + 100, at + 205],
      ...Array.from({ length: 19 }, (_, w) => [at + 210 + 20 * w, at + 225 + 20 * w] as [number, number]),
    ]);
    const runs = joined(pumpOf(flows, [[0, 3000]]), values, 300e3);
    expect(runs).toEqual(Array.from({ length: 5 }, (_, k) => [k * 600 + 100, k * 600 + 585]));
    expect(joined(pumpOf(flows, [[0, 3000]]), values).length).toBeGreaterThan(20);
    expect(joined(pumpOf(flows, [[0, 3000]]), values, 200e3)).toEqual(joined(pumpOf(flows, [[0, 3000]]), values));
  });
  test("not across a hole, without a pressure, of fewer than four runs, or where pressure does not rise in a run", () => {
    const all = runs.map(([a, b]) => [a, b]);
    expect(joined(pumpOf(runs, [[0, 405], [407, 1000]]))).toEqual(all); // biome-ignore format: spans
    expect(joined(pumpOf(runs, [[0, 1000]]), null)).toEqual(all);
    expect(joined(pumpOf(runs.slice(0, 3), [[0, 1000]]))).toEqual(all.slice(0, 3));
    expect(joined(pumpOf(runs, [[0, 1000]]), new Array(1000).fill(4e5))).toEqual(all);
  });
});

describe("draws by a meter", () => {
  const flow = Array.from({ length: 1200 }, (_, t) => ((t >= 200 && t < 300) || (t >= 600 && t < 660) ? 5e-4 : 0));
  const record = (roles: readonly ("flow" | "pressure")[]) =>
    recordOf(roles.map((role) => channel(role, every(1, 1200), role === "flow" ? flow : new Array(1200).fill(4e5))));
  const unknown = { id: "no-pump-state", about: "starts", detail: {} } as const;
  const state = (roles: readonly ("flow" | "pressure")[], place: "after-tank" | "before-tank" | null) =>
    findDrawState(record(roles), [], unknown, { place, from: place === null ? null : "given", certainty: 1 });
  test("with their water, their highest flow, and the rest between them", () => {
    const found = state(["flow", "pressure"], "after-tank");
    if (!("draws" in found)) throw new Error(found.id);
    expect(found.basis).toBe("flow");
    expect(found.draws).toHaveLength(2);
    for (const [i, [a, b]] of [
      [200, 300],
      [600, 660],
    ].entries()) {
      // biome-ignore format: draws
      const { from, to, volume, peakFlow, complete } = found.draws[i];
      expect(Math.abs(from - a)).toBeLessThanOrEqual(1);
      expect(Math.abs(to - b)).toBeLessThanOrEqual(1);
      expect(volume! / (5e-4 * (b - a))).toBeCloseTo(1, 1);
      expect(peakFlow).toBe(5e-4);
      expect(complete).toBe(true);
    }
    const ends = found.draws.flatMap(({ from, to }) => [from, to]);
    expect(found.idle).toEqual(spans([[0, ends[0]], [ends[1], ends[2]], [ends[3], 1199]])); // biome-ignore format: spans
  });
  test("a fixture's own meter without a pressure beside it counts too; one of unknown place beside a pressure, or before the tank, does not", () => {
    expect(state(["flow"], null)).toMatchObject({ basis: "flow" });
    for (const place of ["before-tank", null] as const) expect(state(["flow", "pressure"], place)).not.toMatchObject({ basis: "flow" });
  });
  test("water that never rests shows no draw", () => {
    const steady = recordOf([channel("flow", every(1, 1200), new Array(1200).fill(5e-4))]);
    expect(findDrawState(steady, [], unknown, { place: null, from: null, certainty: 0 })).toMatchObject({
      id: "nothing-to-see",
      about: "leak",
    });
  });
  test("whether water flows at an instant", () => {
    const flows = flowingBy(record(["flow"]), [])!;
    expect([100, 250, 400, 630].map((t) => flows(seconds(t)))).toEqual([false, true, false, true]);
    expect(flowingBy(record(["pressure"]), [])).toBeNull();
  });
});

describe("water through a meter", () => {
  test("straight between samples, held in a log on change, over a missing one by its neighbours", () => {
    const ramp = channel("flow", at([0, 10, 20, 40]), [0, 1, 1, 3]);
    const volume = cumulativeVolume(ramp, ramp.values);
    expect([...volume]).toEqual([0, 5, 15, 55]);
    expect(volumeBetween(ramp.sampling, volume, ramp.values, 5, 30)).toBeCloseTo(30 - 1.25, 9);
    const held = channel("flow", onChange([0, 10, 30], 50), [1, 3, 0]);
    expect([...cumulativeVolume(held, held.values)]).toEqual([0, 10, 70]);
    expect(volumeBetween(held.sampling, cumulativeVolume(held, held.values), held.values, 5, 20)).toBeCloseTo(5 + 30, 9);
    const holed = channel("flow", every(10, 3), [2, Number.NaN, 2]);
    expect([...cumulativeVolume(holed, holed.values)]).toEqual([0, 20, 40]);
  });
});

describe("two states with hysteresis", () => {
  const values = [0, 4, 6, 10, 6, 4, 0, 0, 6, 0, 10, 10];
  const ch = channel("speed", every(10, values.length), values);
  const runs = (on: number, off: number, at: number) => runsOf(ch.values, ch.sampling, stretchesOf(ch, []), { on, off, at }).map(({ from, to, complete }) => [from, to, complete]); // biome-ignore format: one
  test("up from `on`, down below `off`, told where the line passes `at`; an end of the stretch leaves a run incomplete", () => {
    expect(runs(8, 5, 5)).toEqual([[15, 45, true], [95, 110, false]]); // biome-ignore format: runs
    expect(runs(6, 5, 5)).toEqual([[15, 45, true], [78.3333, 81.6667, true], [95, 110, false]].map(([a, b, c]) => [expect.closeTo(a as number, 3), expect.closeTo(b as number, 3), c])); // biome-ignore format: runs
  });
  test("below a limit the same way", () => {
    const low = spansBelow(ch.values, ch.sampling, stretchesOf(ch, []), 2).map(({ from, to }) => [from, to]);
    expect(low).toEqual([[0, 5], [55, expect.closeTo(73.333, 3)], [expect.closeTo(86.667, 3), 92]]); // biome-ignore format: spans
  });
});

describe("the noise and the steps of a channel", () => {
  test("second differences of white noise, whatever level, slope and steps ride on it", () => {
    const noise = white(4000, seededRandom(6));
    expect(noiseOf(noise.map((v, i) => 5 * v + 1000 + 3 * i + (i > 2000 ? 900 : 0))) / 5).toBeCloseTo(1, 1);
    expect(noiseOf(new Float64Array(50))).toBe(0);
  });
  test("the step between levels, where a channel takes five or more of them and few for its length", () => {
    const stepped = (levels: number, count = 400) => Float64Array.from({ length: count }, (_, i) => 7 * (i % levels));
    expect(levelStep(stepped(5))).toBe(7);
    expect(levelStep(stepped(4))).toBe(0);
    expect(levelStep(stepped(100))).toBe(7);
    expect(levelStep(stepped(101))).toBe(0);
  });
});

test("an instant lies within a span from its first to its last", () => {
  expect([3, 4, 9, 10, 19, 20, 30, 31].filter((t) => isWithin([span(4, 9), span(20, 30)], t))).toEqual([4, 9, 20, 30]);
});
