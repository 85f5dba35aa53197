import { describe, expect, test } from "vitest";
import { leakDown } from "../../../analysis/detectors/leak-down";
import type { LivingTank, MeterPlace, Run } from "../../../shared/findings/segment";
import type { LogFault } from "../../../shared/record/log-fault";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { STANDARD_ATMOSPHERE as AIR } from "../../../shared/units/pressure";
import { seconds } from "../../../shared/units/quantity";
import { alwaysRunning, evenSampling, evidenceOf, listedSampling, recordOf } from "../../builders/known-evidence";

/** J; of an 80 L tank charged to 2.1 bar. */
const K = 25_000;
const [LOW, HIGH] = [300e3, 500e3];
const RUN = 40;

type Rest = { readonly s: number; readonly leak: number };
type Seen = {
  readonly rests: readonly Rest[];
  /** What the meter shows in each rest, m3/s. */
  readonly metered?: (rest: number, i: number) => number;
  readonly place?: MeterPlace["place"];
  readonly tank?: Partial<LivingTank> | null;
  readonly facts?: object;
  readonly faults?: (rests: readonly Run[]) => readonly LogFault[];
  readonly missing?: (i: number) => boolean;
  /** s between readings. */
  readonly step?: number;
  /** Whether a second's reading was written down. */
  readonly written?: (t: number) => boolean;
};

/**
 * Runs of 40 s, half of them at 300 kPa and half at 500, and rests from 500 kPa on in which a steady leak takes its water out of a tank of one temperature.
 * Boyle's law p (V0 + q t) = K, so that 1/p rises by q/K a second, exactly.
 */
function outcomeOf(seen: Seen) {
  const { rests, metered, place = "after-tank", tank = {}, facts = {}, faults = () => [], missing = () => false } = seen;
  const { step = 1, written = (t) => t % step === 0 } = seen;
  const pressure: number[] = [];
  const flow: number[] = [];
  const runs: Run[] = [];
  const drawRun = () => {
    const from = pressure.length;
    for (let i = 0; i < RUN; i++) {
      pressure.push(i < RUN / 2 ? LOW : HIGH);
      flow.push(0);
    }
    runs.push({ from: seconds(from), to: seconds(pressure.length), complete: true });
  };
  const spans: Run[] = [];
  for (const [k, { s, leak }] of rests.entries()) {
    drawRun();
    spans.push({ from: seconds(pressure.length), to: seconds(pressure.length + s), complete: true });
    for (let i = 0; i < s; i++) {
      pressure.push(missing(i) ? Number.NaN : 1 / (1 / (HIGH + AIR) + (leak / K) * i) - AIR);
      flow.push(metered?.(k, i) ?? 0);
    }
  }
  drawRun();
  const times = pressure.flatMap((_, t) => (written(t) ? [t] : []));
  const kept = (values: readonly number[]) => times.map((t) => values[t]);
  const sampling = seen.written === undefined ? evenSampling(times.length, step) : listedSampling(times);
  const columns = metered === undefined ? { pressure: kept(pressure) } : { pressure: kept(pressure), flow: kept(flow) };
  const record = inDouble(recordOf(columns, sampling), columns);
  const living: LivingTank = {
    heatTime: seconds(0),
    heatShare: 1,
    windows: [],
    gasConstant: { value: K, low: 0.9 * K, high: 1.2 * K },
    give: { value: K, low: 0.9 * K, high: 1.2 * K },
    emptiesAt: null,
    emptiesBelow: null,
    points: { drawn: new Float64Array(0), inversePressure: new Float64Array(0), window: new Uint16Array(0) },
    ...tank,
  };
  const segments = {
    pump: { ...alwaysRunning(record), mode: "switching" as const, runs },
    draw: { basis: "flow" as const, draws: [], idle: [{ from: seconds(0), to: record.duration }] },
    meter: { place, from: "given" as const, certainty: 1 },
    ...(tank === null ? {} : { tank: living }),
  };
  return leakDown.detect(evidenceOf(record, segments, readSiteFacts(facts, "site"), faults(spans)));
}
/** Readings as exact as they were worked out. */
const inDouble = (record: LogRecord, columns: Readonly<Record<string, readonly number[]>>): LogRecord => ({
  ...record,
  channels: record.channels.map((channel) => ({ ...channel, values: Float64Array.from(columns[channel.role]) })),
});
function findingOf(seen: Seen) {
  const outcome = outcomeOf(seen);
  if (outcome.state !== "found") throw new Error(JSON.stringify(outcome));
  return outcome.finding;
}
const same = (leak: number, s = 600, count = 3): Rest[] => new Array(count).fill({ s, leak });
const LEAK = 1e-6;

describe("how much is lost", () => {
  test("the gas constant times the rise of 1/p, with the constant's interval", () => {
    const { flow, places, channels } = findingOf({ rests: same(LEAK) });
    expect(flow.value / LEAK).toBeCloseTo(1, 3);
    expect(flow.low / (0.9 * LEAK)).toBeCloseTo(1, 2);
    expect(flow.high / (1.2 * LEAK)).toBeCloseTo(1, 2);
    expect(places).toHaveLength(3);
    expect(channels).toEqual(["pressure"]);
    expect(outcomeOf({ rests: same(LEAK) })).toMatchObject({ limits: [] });
  });
  test("likewise where the logger wrote now often and now seldom", () => {
    const written = (t: number) => t % 10 === 0 || t % 640 < 300;
    expect(findingOf({ rests: same(LEAK), written }).flow.value / LEAK).toBeCloseTo(1, 3);
  });
  test("readings without any scatter are believed to a millionth of the pressure over each rest", () => {
    const exact = { give: { value: K, low: K, high: K } };
    const { flow } = findingOf({ rests: same(LEAK), tank: exact });
    // Three rests, Student's t of two degrees of freedom 4.303, 39 blocks of 15 s (568 s looked at): 37 * 15 s from the first to the last.
    const reach = (4.303 / Math.sqrt(3)) * ((1e-6 * K) / (HIGH + AIR) / (36 * 15));
    expect((flow.high - flow.value) / reach).toBeCloseTo(1, 1);
    expect((flow.value - flow.low) / reach).toBeCloseTo(1, 1);
  });
  test("one that is open by more than three to one from end to end is no measure, though the fall is told", () => {
    const of = (high: number) => outcomeOf({ rests: same(LEAK), tank: { give: { value: K, low: 0.6 * K, high: high * K } } });
    expect(of(1.7)).toMatchObject({ state: "found" });
    expect(of(1.9)).toMatchObject({
      state: "cannot-tell",
      because: [{ about: "leak", detail: { risePerPaS: expect.closeTo(LEAK / K, 12) } }],
    });
  });
  test("missing readings take nothing from it; a rest with hardly any reading is left out", () => {
    expect(findingOf({ rests: same(LEAK), missing: (i) => i % 3 === 1 || (i > 200 && i < 290) }).flow.value / LEAK).toBeCloseTo(1, 3);
    const outcome = outcomeOf({ rests: same(LEAK), missing: (i) => i > 60 });
    const tooFew = { state: "cannot-tell", because: [{ id: "nothing-to-see", detail: { idleStretches: 3, wanted: 2 } }] };
    expect(outcome).toMatchObject(tooFew);
    expect(outcomeOf({ rests: same(LEAK), missing: (i) => i > 60, tank: null })).toMatchObject(tooFew);
  });
  test("without a tank at work the facts give the constant, p0 Vt in absolute pressure", () => {
    const facts = { tankVolume: "80 L", precharge: "210 kPa" };
    const { flow } = findingOf({ rests: same(LEAK), tank: null, facts });
    expect(flow.value / LEAK).toBeCloseTo((0.08 * (210e3 + AIR)) / K, 3);
    expect(outcomeOf({ rests: same(LEAK), tank: null })).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "site-fact-missing", about: "leak", detail: { missing: "tankVolume", risePerPaS: expect.closeTo(LEAK / K, 13) } }],
    });
  });
});

describe("where it is looked for", () => {
  test("half a minute after the stop, a minute long at least, two of them at least", () => {
    const quiet = findingOf({ rests: same(LEAK, 92) });
    expect(quiet.places[0]).toEqual({ from: RUN + 30, to: RUN + 90 });
    expect(findingOf({ rests: [...same(LEAK, 92, 2), { s: 50, leak: LEAK }] }).places).toHaveLength(2);
  });
  test("else in whole rests that ended with a start, five seconds after the stop", () => {
    const whole = { from: RUN + 5, to: RUN + 89 };
    expect(findingOf({ rests: same(LEAK, 91) }).places[0]).toEqual(whole);
    expect(findingOf({ rests: [{ s: 91, leak: LEAK }, { s: 600, leak: LEAK }] }).places[0]).toEqual(whole); // biome-ignore format: rests
  });
  test("two readings away from either end, and in four of them", () => {
    const seldom = (s: number) => outcomeOf({ rests: same(LEAK, s), step: 20 });
    expect(seldom(160)).toMatchObject({ state: "found", finding: { places: [{ from: 80, to: 160 }, {}, {}] } });
    expect(seldom(140)).toMatchObject({ state: "cannot-tell", because: [{ id: "nothing-to-see", detail: { idleStretches: 3 } }] });
    expect(findingOf({ rests: same(LEAK, 130), step: 10 }).places[0]).toEqual({ from: 70, to: 150 });
  });
  test("one rest is too few", () => {
    expect(outcomeOf({ rests: same(LEAK, 600, 1) })).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "nothing-to-see", about: "leak", detail: { idleStretches: 1, wanted: 2 } }],
    });
  });
});

describe("what is worth telling", () => {
  /** The leak that takes half a day from the highest pressure of the record to the lowest. */
  const halfDay = (K * (1 / (LOW + AIR) - 1 / (HIGH + AIR))) / (12 * 3600);
  test("what brings the pump on within half a day", () => {
    expect(outcomeOf({ rests: same(1.02 * halfDay) }).state).toBe("found");
    expect(outcomeOf({ rests: same(0.98 * halfDay) })).toEqual({ kind: "leak-down", state: "clear", limits: [] });
    expect(outcomeOf({ rests: same(-1.02 * halfDay) }).state).toBe("clear");
  });
  test("rests that contradict each other about it tell nothing where their mean is so large, and no leak where it is not", () => {
    const unlike = (a: number, b: number) => outcomeOf({ rests: [a, b].map((times) => ({ s: 600, leak: times * halfDay })) });
    expect(unlike(0.5, 2.1)).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "record-too-short", about: "leak", detail: { idleStretches: 2 } }],
    });
    expect(unlike(0.2, 1.6).state).toBe("clear");
  });
  test("a loss beyond doubt is told where its interval reaches half a day, though its mean does not", () => {
    const rests = [0.85, 0.9, 0.95, 1, 1.05, 1.1].map((times) => ({ s: 600, leak: (times - 0.005) * halfDay }));
    expect(outcomeOf({ rests }).state).toBe("found");
  });
});

describe("on which side", () => {
  const sideOf = (seen: number, more: Partial<Seen> = {}) => findingOf({ rests: same(LEAK), metered: () => seen * LEAK, ...more }).side;
  test("a meter after the tank sees over half of it: the system; under a fifth: back; between: open", () => {
    expect([0.01, 0.19, 0.21, 0.49, 0.51, 1].map((seen) => sideOf(seen))).toEqual([
      "back",
      "back",
      "unknown",
      "unknown",
      "system",
      "system",
    ]);
  });
  test("elsewhere, or without a meter, it tells nothing", () => {
    for (const place of ["before-tank", null] as const) for (const seen of [0, 1]) expect(sideOf(seen, { place })).toBe("unknown");
    expect(findingOf({ rests: same(LEAK) }).side).toBe("unknown");
  });
  test("a meter that never showed less than the leak may not move at it, so that its silence tells nothing", () => {
    const stepping = (step: number) => (rest: number, i: number) => (rest === 0 && i < 5 ? i * step : 0);
    expect(sideOf(0, { metered: stepping(0.9 * LEAK) })).toBe("back");
    expect(sideOf(0, { metered: stepping(1.1 * LEAK) })).toBe("unknown");
    expect(sideOf(0)).toBe("unknown");
  });
  test("only rests through which the meter was read count", () => {
    const metered = (rest: number, i: number) => (rest === 1 ? 9 * LEAK : i < 2 ? 0.5 * LEAK : 0);
    const spoilt = ([, { from, to }]: readonly Run[], about = "flow"): LogFault[] => [
      { kind: "stuck-value", channel: about, from: seconds(from + 100), to: seconds(to - 100), note: { kind: "no-samples" } },
    ];
    expect(sideOf(0, { metered })).toBe("system");
    expect(sideOf(0, { metered, faults: (rests) => spoilt(rests) })).toBe("back");
    expect(findingOf({ rests: same(LEAK), metered: () => 0 }).channels).toEqual(["pressure", "flow"]);
  });
  test("a fault that ends before the part looked at, or begins after it, spoils nothing", () => {
    const metered = (rest: number, i: number) => (rest === 1 ? 9 * LEAK : i < 2 ? 0.5 * LEAK : 0);
    const around = (inside: number) => (rests: readonly Run[]) => {
      const { from, to } = rests[1];
      const [begin, end] = [from + 29 + inside, to - 1 - inside];
      const fault = (a: number, b: number): LogFault => ({
        kind: "stuck-value",
        channel: "flow",
        from: seconds(a),
        to: seconds(b),
        note: { kind: "no-samples" },
      });
      return [fault(from - 10, begin), fault(end, to + 10)];
    };
    expect(sideOf(0, { metered, faults: around(0) })).toBe("system");
    expect(sideOf(0, { metered, faults: (rests) => [around(1)(rests)[0]] })).toBe("back");
    expect(sideOf(0, { metered, faults: (rests) => [around(1)(rests)[1]] })).toBe("back");
  });
});

/**
 * Gas beside a wall, from the first law in the volume's form: d theta/dt = -(gamma - 1) (1 + theta) d ln V/dt - theta/tau, p = K (1 + theta)/V. The pump fills in
 * 40 s, then nothing flows but the leak. Source: first law for an ideal gas, gamma 1.4.
 */
describe("the heat that the pump left in the gas", () => {
  function warmed(tau: number, leak: number, known: number | null) {
    const [full, empty] = [K / (HIGH + AIR), K / (LOW + AIR)];
    const pressure: number[] = [];
    const runs: Run[] = [];
    let [volume, theta] = [empty, 0];
    const fine = 0.01;
    const pass = (s: number, rate: number) => {
      for (let i = 0; i < s / fine; i++) {
        if (i % (1 / fine) === 0) pressure.push((K * (1 + theta)) / volume - AIR);
        theta += fine * ((-0.4 * (1 + theta) * rate) / volume - theta / tau);
        volume += fine * rate;
      }
    };
    for (let k = 0; k < 8; k++) {
      pass(20, (empty - volume) / 20);
      const from = pressure.length;
      pass(RUN, (full - volume) / RUN);
      runs.push({ from: seconds(from), to: seconds(pressure.length), complete: true });
      pass(200, leak);
    }
    const record = recordOf({ pressure });
    const draws = runs.map(({ from }) => ({
      from: seconds(from - 20),
      to: from,
      complete: true,
      volume: null,
      peakFlow: null,
    }));
    const idle = runs.map(({ to }, i) => ({ from: to, to: draws[i + 1]?.from ?? record.duration }));
    const tank = {
      heatTime: seconds(known ?? 0),
      heatShare: 1,
      windows: [],
      // Known to a few per cent, as from a log.
      gasConstant: { value: K, low: 0.97 * K, high: 1.03 * K },
      give: { value: K, low: 0.97 * K, high: 1.03 * K },
      emptiesAt: null,
      emptiesBelow: null,
      points: { drawn: new Float64Array(0), inversePressure: new Float64Array(0), window: new Uint16Array(0) },
    };
    const segments = {
      pump: { ...alwaysRunning(record), mode: "switching" as const, runs },
      draw: { basis: "pressure" as const, draws, idle },
      ...(known === null ? {} : { tank }),
    };
    return leakDown.detect(evidenceOf(record, segments, readSiteFacts({ tankVolume: "80 L", precharge: `${K / 0.08 - AIR} Pa` }, "site")));
  }
  const flowOf = (outcome: ReturnType<typeof warmed>) => (outcome.state === "found" ? outcome.finding.flow : null);
  test("is taken off with the tank's own time", () => {
    expect(flowOf(warmed(40, 3e-6, 40))!.value / 3e-6).toBeCloseTo(1, 1);
    expect(flowOf(warmed(40, 3e-6, 0))!.value / 3e-6).toBeGreaterThan(1.5);
  });
  test("or with the one under which the rests agree, where the tank's is not known", () => {
    expect(flowOf(warmed(40, 3e-6, null))!.value / 3e-6).toBeCloseTo(1, 0);
  });
  test("a time that is known to a third or so leaves an interval that holds the truth", () => {
    for (const off of [1.4, 1 / 1.4]) {
      const { low, high } = flowOf(warmed(40, 3e-6, 40 * off))!;
      expect(low).toBeLessThan(3e-6);
      expect(high).toBeGreaterThan(3e-6);
    }
  });
});
