import { describe, expect, test } from "vitest";
import type { OscillationEpisode } from "../../../../shared/findings/finding";
import type { LivingTank, Run } from "../../../../shared/findings/segment";
import { gaugePascal, pascalDifference } from "../../../../shared/units/pressure";
import { cubicMetre, joule, seconds } from "../../../../shared/units/quantity";
import { cycleOverlay } from "../../../../src/charts/looks/cycle-overlay";
import { driftWindow, leakFit } from "../../../../src/charts/looks/fitted-stretch";
import { hourByDay } from "../../../../src/charts/looks/hour-by-day";
import { restLengths, runLengths } from "../../../../src/charts/looks/lengths";
import type { Look } from "../../../../src/charts/looks/look";
import { pressureAgainstFlow } from "../../../../src/charts/looks/pressure-against-flow";
import { startsByHour } from "../../../../src/charts/looks/starts-by-hour";
import { agreement, periodogram } from "../../../../src/charts/looks/swings";
import { tankLine } from "../../../../src/charts/looks/tank-line";
import type { Point } from "../../../../src/charts/trace-series";
import { channel, every } from "../../../builders/record";
import { span } from "../../../builders/trace";

const ATMOSPHERE = 101_325;

const run = (from: number, to: number, complete = true): Run => ({ ...span(from, to), complete });
function shown(look: Look): Extract<Look, { state: "shown" }> {
  if (look.state !== "shown") throw new Error(`${look.look} shows nothing`);
  return look;
}
const sum = (points: readonly Point[]) => points.reduce<number>((total, p) => total + (p ?? 0), 0);
const least = (points: readonly Point[]) => points.reduce<number>((a, p) => Math.min(a, p ?? Infinity), Infinity);
const greatest = (points: readonly Point[]) => points.reduce<number>((a, p) => Math.max(a, p ?? -Infinity), -Infinity);

describe("lengths of runs and rests", () => {
  const runs = [run(0, 30), run(100, 140), run(200, 300), run(500, 520, false), run(900, 930)];
  test("every whole run is counted once, a cut one not at all", () => {
    const look = shown(runLengths(runs, 60));
    expect(sum(look.ys[0])).toBe(4);
    expect(look.numbers).toMatchObject({ count: { value: 4 }, under: { value: 3 }, median: { value: 35 }, limit: { value: 60 } });
  });
  test("a bar stands over the lengths it counts", () => {
    const look = shown(runLengths([run(0, 30), run(50, 80), run(100, 130)], 60));
    const bar = look.ys[0].indexOf(3);
    expect(look.xs[bar]).toBeGreaterThan(30 / 1.22);
    expect(look.xs[bar]).toBeLessThan(30 * 1.22);
  });
  test("rests beside a cut run are left out", () => {
    expect(shown(restLengths([...runs, run(1000, 1010), run(1100, 1110)])).numbers.count.value).toBe(4);
  });
  test("too few to count show nothing", () => {
    expect(runLengths(runs.slice(0, 2), 60).state).toBe("nothing-to-show");
  });
});

describe("starts by the clock", () => {
  const clock = { kind: "absolute", epoch: Date.UTC(2024, 4, 14, 22, 30) / 1000, zone: "Europe/Lisbon" } as const; // 23:30 there
  const runs = [run(0, 60), run(600, 660), run(1790, 1800), run(1801, 1850), run(5400, 5500)];
  test("fall into hours of the site's own clock; a run that was going when the log began is no start", () => {
    const look = shown(startsByHour(runs, 7200, clock, 10));
    expect(look.ys[0]).toEqual([2, 1, 1]);
    expect(look.xs[0]).toBe(0);
    expect(look.numbers).toMatchObject({ starts: { value: 4 }, most: { value: 2 }, allowed: { value: 10 } });
  });
  test("stand in a row a day; hours that the record does not reach stay empty", () => {
    const rows = hourByDay(runs, 7200, clock);
    expect(rows?.map(({ starts }) => starts.flatMap((n, hour) => (n === null ? [] : [[hour, n]])))).toEqual([
      [[23, 2]],
      [
        [0, 1],
        [1, 1],
      ],
    ]);
    expect(hourByDay(runs, 7200, { kind: "elapsed" })).toBeNull();
  });
  test("of a damaged clock that spans millennia no hours are counted: they would fill the memory; of a year's clock they are", () => {
    const millennia = 3e11;
    const far = [...runs, run(millennia - 100, millennia)];
    for (const of of [clock, { kind: "elapsed" } as const]) {
      expect(startsByHour(far, millennia, of, 10).state).toBe("nothing-to-show");
      expect(shown(startsByHour(runs, 365 * 86_400, of, 10)).xs.length).toBeGreaterThanOrEqual(365 * 24);
    }
    expect(hourByDay(far, millennia, clock)).toBeNull();
    expect(hourByDay(runs, 365 * 86_400, clock)?.length).toBeGreaterThanOrEqual(365);
  });
});

test("cycles laid over one another give back the cycle they repeat", () => {
  // 30 cycles of 100 s: 40 s up from 1 to 3, then down again.
  const shape = (t: number) => (t % 100 < 40 ? 1 + (t % 100) / 20 : 3 - ((t % 100) - 40) / 30);
  const pressure = channel(
    "pressure",
    every(1, 3000),
    Array.from({ length: 3000 }, (_, i) => shape(i)),
  );
  const runs = Array.from({ length: 30 }, (_, i) => run(100 * i, 100 * i + 40));
  const look = shown(cycleOverlay(pressure, runs, span(520, 521)));
  const [low, middle, high, chosen] = look.ys;
  look.xs.forEach((t, k) => {
    if (t < 0 || t > 99) return;
    expect(Math.abs(Number(middle[k]) - shape(t))).toBeLessThan(0.06);
    expect(Number(high[k]) - Number(low[k])).toBeLessThan(0.06);
    expect(chosen[k]).toBe(middle[k]);
  });
  expect(look.numbers.cycles.value).toBe(29);
});

describe("a swing of known period and height", () => {
  const PERIOD = 16;
  const swing = channel(
    "pressure",
    every(1, 4000),
    Array.from({ length: 4000 }, (_, i) => 300_000 + 5000 * Math.sin((2 * Math.PI * i) / PERIOD)),
  );
  const measured = <T extends number>(value: T) => ({ value, low: value, high: value });
  const episode: OscillationEpisode = {
    ...span(0, 4000),
    channel: "pressure",
    period: measured(seconds(PERIOD)),
    peakToPeak: measured(pascalDifference(10_000)),
    heightIsLeast: false,
    meterSeesPump: false,
    regularity: 9,
    shape: "sine",
    drivenBy: "unknown",
    share: 1,
    couldBeFoldedFrom: [],
  };
  test("peaks at its period in the periodogram, far above the background", () => {
    const look = shown(periodogram(swing, episode));
    const peak = look.ys[0].indexOf(greatest(look.ys[0]));
    expect(look.xs[peak]).toBeCloseTo(PERIOD, 6);
    // A Hann window leaves an on-bin sine's amplitude as it is in "spectrum" scaling (Heinzel, Ruediger and Schilling 2002, from memory).
    expect(look.ys[0][peak]).toBeCloseTo(5000, 0);
    expect(look.numbers.above.value).toBeGreaterThan(100);
  });
  test("agrees with itself one period later and disagrees half a period later", () => {
    const look = shown(agreement(swing, episode));
    expect(look.ys[0][PERIOD]).toBeGreaterThan(0.95);
    expect(look.ys[0][PERIOD / 2]).toBeLessThan(-0.95);
  });
});

test("the tank's line passes through the points of the gas law, whatever water each stretch began with", () => {
  const K = 12_000;
  const inverse = (v: number) => 1 / 400_000 + v / K;
  const drawn = Float64Array.from([0, 0.002, 0.004, 0, 0.001, 0.002]);
  const before = [0, 0, 0, 0.003, 0.003, 0.003];
  const tank: LivingTank = {
    windows: [],
    heatTime: seconds(0),
    heatShare: 1,
    gasConstant: { value: joule(K), low: joule(K), high: joule(K) },
    give: { value: joule(K), low: joule(K), high: joule(K) },
    emptiesAt: { value: gaugePascal(150_000), low: gaugePascal(149_000), high: gaugePascal(151_000) },
    emptiesBelow: null,
    points: { drawn, inversePressure: drawn.map((v, i) => inverse(v + before[i])), window: Uint16Array.from([0, 0, 0, 1, 1, 1]) },
  } as LivingTank;
  const look = shown(tankLine(tank, ATMOSPHERE));
  look.ys[0].forEach((y, i) => void expect(y).toBeCloseTo(Number(look.ys[1][i]), 12));
  expect([...look.xs]).toEqual([...look.xs].sort((a, b) => a - b));
  expect(look.marks).toMatchObject([{ at: 1 / (150_000 + ATMOSPHERE) }]);
});

test("a steady leak follows the gas law: one over the absolute pressure rises evenly", () => {
  const gauge = (t: number) => 1 / (1 / 500_000 + t * 2e-10) - ATMOSPHERE;
  const pressure = channel(
    "pressure",
    every(1, 3600),
    Array.from({ length: 3600 }, (_, i) => gauge(i)),
  );
  const look = shown(leakFit(pressure, span(0, 3599), ATMOSPHERE));
  look.ys[1].forEach((p, i) => void expect(Math.abs(Number(p) - gauge(look.xs[i]))).toBeLessThan(1));
  expect(look.numbers.fall.value).toBeCloseTo(gauge(0) - gauge(3599), -3);
});

test("drift is drawn with the change that was measured and the limit around its beginning", () => {
  const pressure = channel(
    "pressure",
    every(1, 600),
    Array.from({ length: 600 }, (_, i) => 300_000 - 50 * i),
  );
  const change = pascalDifference(-30_000);
  const window = { ...span(0, 600), meanFlow: null, change: { value: change, low: change, high: change }, over: true };
  const look = shown(driftWindow(pressure, window, 10_000));
  expect(Number(look.ys[1].at(-1)) - Number(look.ys[1][0])).toBeCloseTo((-30_000 * (look.xs[599] - look.xs[0])) / 600, 3);
  expect(look.marks).toMatchObject([{ kind: "area", from: expect.closeTo(290_000, -1), to: expect.closeTo(310_000, -1) }]);
});

test("pressure against flow takes the running pump only and draws the droop through the middle", () => {
  const n = 1000;
  const flow = channel(
    "flow",
    every(1, n),
    Array.from({ length: n }, (_, i) => (i % 100) * 1e-5),
  );
  const pressure = channel(
    "pressure",
    every(1, n),
    Array.from({ length: n }, (_, i) => (i < 500 ? 300_000 - 4e7 * (i % 100) * 1e-5 : 0)),
  );
  const look = shown(pressureAgainstFlow(pressure, flow, [run(0, 499)], -4e7));
  expect(look.xs.length).toBe(500);
  expect(least(look.ys[0])).toBeGreaterThan(200_000);
  // The line ends where 95 % of the instants have been: the few far ones are not spoken for.
  const drawn = look.ys[1].flatMap((p, i) => (p === null ? [] : [{ p: Number(p), q: look.xs[i] }]));
  expect(drawn.length / look.xs.length).toBeCloseTo(0.95, 1);
  for (const { p, q } of drawn) expect(Math.abs(p - (300_000 - 4e7 * q))).toBeLessThan(500);
  expect(look.numbers.falls.value).toBeCloseTo(4e7 * 94e-5, 3);
  expect(cubicMetre(look.xs[0])).toBe(0);
});
