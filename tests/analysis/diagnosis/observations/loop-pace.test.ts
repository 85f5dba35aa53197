import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../../analysis/diagnosis/observations";
import type { PumpStateBasis } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { SWITCHED } from "../../../builders/look-at";
import { channelOf, psi, pumpWith, recordOf, SITE_AS_WRITTEN, segmentsWith, siteOf } from "../../../builders/outcomes";
import { seededRandom } from "../../../builders/signals";

const LENGTH = 7200; // s
type Drawn = {
  readonly runs?: readonly (readonly [number, number])[];
  readonly step?: number;
  readonly basis?: PumpStateBasis;
  readonly facts?: Readonly<Record<string, unknown>>;
};
/** A pressure around 52 psi; the pump runs all the time unless runs are drawn as [start, length]. */
function look(error: (t: number) => number, { runs = [[0, LENGTH]], step = 1, basis = "speed", facts = {} }: Drawn = {}) {
  const values = Array.from({ length: LENGTH / step }, (_, i) => psi(52 + error(i * step)));
  const pump = { ...pumpWith(runs), basis, observed: [{ from: seconds(0), to: seconds(LENGTH) }] };
  return LOOKS["loop-pace"]({
    outcomes: [],
    segments: segmentsWith(pump),
    site: siteOf({ ...SITE_AS_WRITTEN, ...facts }),
    record: recordOf([channelOf("pressure", "gaugePressure", values, step)], 2),
  });
}

/** Errors that come by chance and die away with time constant T, spread 1: autocorrelation e^(-t/T) (Box and Jenkins, ch. 3). */
function dying(T: number, seed = 5) {
  const [random, left] = [seededRandom(seed), Math.exp(-1 / T)];
  let error = 0;
  const values = Float64Array.from({ length: LENGTH }, () => {
    error = error * left + Math.sqrt(1 - left * left) * random.normal();
    return error;
  });
  return (t: number) => values[t];
}

describe("how long an error lasts", () => {
  test("until half of what is left after 4 s is left: T ln 2 later", () => {
    for (const T of [5, 20, 40]) {
      const half = Number(look(dying(T))?.numbers.half);
      expect(half).toBeGreaterThan(4 + 0.6 * T * Math.LN2);
      expect(half).toBeLessThan(2 + 4 + 1.7 * T * Math.LN2);
    }
  });
  test("its size is the root of the autocovariance at 4 s, a share of the set pressure", () => {
    const error = Number(look(dying(10))?.numbers.error);
    expect(error / (Math.sqrt(Math.exp(-4 / 10)) / 52)).toBeCloseTo(1, 1);
  });
  test("an error under four thousandths of the set pressure is nobody's trouble", () => {
    const slow = dying(120);
    const size = Number(look(slow)?.numbers.error);
    const sized = (share: number) => look((t) => (slow(t) * share) / size);
    expect(sized(0.0041)?.level).toBe("slow");
    expect(sized(0.0039)).toEqual({ level: "prompt", numbers: { error: expect.closeTo(0.0039, 6) } });
  });
  test("one that turns round within 4 s does not last at all", () => {
    expect(look((t) => (t % 8 < 4 ? 2 : -2))).toEqual({ level: "prompt", numbers: { error: 0 } });
  });
  test("a sine comes to half of its first at a sixth of its period, worked by hand: cos(2 pi t/P) / cos(2 pi 4/P) = 1/2", () => {
    const at = (period: number) => look((t) => 3 * Math.sin((2 * Math.PI * t) / period));
    expect(at(60)?.numbers.half).toBe(12); // 10.6 s
    expect(at(142)?.numbers.half).toBe(24); // 23.9 s
    expect(at(142)?.level).toBe("prompt");
    expect(at(144)?.numbers.half).toBe(32); // 24.2 s
    expect(at(144)?.level).toBe("unhurried");
    expect(at(380)?.numbers.half).toBe(64);
    expect(at(380)?.level).toBe("unhurried"); // 63.5 s
    expect(at(386)?.level).toBe("slow"); // 64.5 s
  });
});

describe("within runs", () => {
  /** In each run the pressure is off by a constant of its own. */
  const constants = Array.from({ length: 100 }, (_, i) => (i % 2 === 0 ? 2 : -2));
  const every = (cycle: number, run: number) => Array.from({ length: Math.floor(LENGTH / cycle) }, (_, i) => [i * cycle, run] as const);
  test("the error of one run is not held against that of the next", () => {
    const own = (cycle: number) => (t: number) => constants[Math.floor(t / cycle)];
    expect(look(own(240), { runs: every(240, 230) })).toMatchObject({
      level: "slow",
      numbers: { half: 128, error: expect.closeTo(2 / 52, 4) },
    });
    // of runs of 100 s no two readings 64 s apart are left, and the error lasts at least as long
    expect(look(own(110), { runs: every(110, 100) })).toBeNull();
  });
  test("twenty seconds at either end belong to start and sleep, the twenty-first does not", () => {
    const loop = dying(10);
    const runs = every(300, 200);
    const plain = look(loop, { runs });
    const knocked = (from: number, to: number) => look((t) => (t % 300 >= from && t % 300 <= to ? -20 : loop(t)), { runs });
    expect(knocked(0, 20)).toEqual(plain);
    expect(knocked(180, 299)).toEqual(plain);
    expect(knocked(21, 21)).not.toEqual(plain);
    expect(knocked(179, 179)).not.toEqual(plain);
  });
  test("by a hundred pairs of readings", () => {
    // from 21 s to (length - 21) s of a run: length - 41 readings, and four fewer pairs
    expect(look(() => 0, { runs: [[1000, 145]] })?.level).toBe("prompt");
    expect(look(() => 0, { runs: [[1000, 144]] })).toBeNull();
  });
  test("missing readings make no pairs", () => {
    const loop = dying(20);
    const half = Number(look((t) => (t % 7 === 0 ? Number.NaN : loop(t)))?.numbers.half);
    expect(Math.abs(half - Number(look(loop)?.numbers.half))).toBeLessThanOrEqual(4);
  });
});

test("not asked of a switch, without a set pressure, at over 12 s a sample, nor where rests would pass for errors", () => {
  const loop = dying(20);
  expect(look(loop, { facts: SWITCHED })).toBeNull();
  expect(look(loop, { facts: { setPressure: undefined } })).toBeNull();
  expect([12, 15].map((step) => look(loop, { step }) !== null)).toEqual([true, false]);
  const bases = ["running", "current", "power", "flow", "pressure"] as const;
  expect(bases.map((basis) => look(loop, { basis }) !== null)).toEqual([true, true, true, false, false]);
});
