import { describe, expect, test } from "vitest";
import { fallGoesOn } from "../../../analysis/diagnosis/observations/rest-fall";
import { gasConstantByStarts } from "../../../analysis/diagnosis/observations/tank-by-starts";
import { seededRandom } from "../../../analysis/numerics/random";
import type { DrawState, PumpStateBasis } from "../../../shared/findings/segment";
import { seconds } from "../../../shared/units/quantity";
import { channelOf, psi, pumpWith, recordOf, SITE_AS_WRITTEN, segmentsWith, siteOf } from "../../builders/outcomes";

const AIR = 101_325;
const CYCLE = 600; // s: the pump rests for 480 s and runs for 120 s
const REST = 480;
const CYCLES = 12;
const RUNS = Array.from({ length: CYCLES }, (_, i) => [i * CYCLE + REST, CYCLE - REST] as const);
const random = seededRandom(4);
const noise = Array.from({ length: CYCLES * CYCLE }, () => 150 * random.normal()); // Pa

/** What is unlike the usual: s between samples, runs as [start, length], how many rests are known to be idle, how much louder the noise is. */
type Unlike = {
  readonly step?: number;
  readonly runs?: readonly (readonly [number, number])[];
  readonly idleFor?: readonly (readonly [number, number])[];
  readonly loud?: number;
  readonly basis?: PumpStateBasis;
  readonly facts?: Readonly<Record<string, unknown>>;
  readonly metered?: boolean;
};
const IDLE = Array.from({ length: CYCLES }, (_, i) => [i * CYCLE, REST] as const);

/** `rest`: pressure, Pa gauge, k seconds into the i-th rest. `flow`: m3/s. */
function sightOf(rest: (k: number, i: number) => number, flow: (k: number, i: number) => number = () => 0, unlike: Unlike = {}) {
  const { step = 1, runs = RUNS, idleFor = IDLE, loud = 1, basis = "speed", facts = {}, metered = true } = unlike;
  const at = Array.from({ length: (CYCLES * CYCLE) / step }, (_, n) => ({ k: (n * step) % CYCLE, i: Math.floor((n * step) / CYCLE) }));
  const pressure = at.map(({ k, i }, n) => (k < REST ? rest(k, i) : psi(52)) + loud * noise[n]);
  const flows = at.map(({ k, i }) => flow(k, i));
  const channels = [channelOf("pressure", "gaugePressure", pressure, step), ...(metered ? [channelOf("flow", "flow", flows, step)] : [])];
  const pump = { ...pumpWith(runs), basis, observed: [{ from: seconds(0), to: seconds(CYCLES * CYCLE) }] };
  const idle = idleFor.map(([from, length]) => ({ from: seconds(from), to: seconds(from + length) }));
  const draw: DrawState = { basis: "flow", draws: [], idle };
  const site = siteOf({ ...SITE_AS_WRITTEN, ...facts });
  return { outcomes: [], segments: segmentsWith(pump, draw), site, record: recordOf(channels, (CYCLES * CYCLE) / 3600) };
}

describe("a fall at rest goes on where water is lost", () => {
  const start = psi(52) + AIR;
  test("a leak: 1/p rises evenly in every rest (Boyle, q = K d(1/p)/dt)", () => {
    expect(fallGoesOn(sightOf((k) => 1 / (1 / start + 2e-10 * k) - AIR))).toBe(true);
  });
  test("gas that cools loses as much in the first minutes and then stands: e^(-t/T)", () => {
    expect(fallGoesOn(sightOf((k) => psi(52) - 9000 * (1 - Math.exp(-k / 60))))).toBe(false);
  });
  test("a draw that the meter does not see comes in one rest and not in the next", () => {
    expect(fallGoesOn(sightOf((k, i) => (i % 3 === 0 ? psi(52) : 1 / (1 / start + 2e-10 * k) - AIR)))).toBe(false);
  });
  test("a pressure that stands leaves it open", () => {
    expect(fallGoesOn(sightOf(() => psi(52)))).toBeNull();
  });
  /** Boyle: 1/p(abs) rises by so much a second, 1/(Pa s), in the i-th rest. */
  const losing = (rate: (i: number) => number) => (k: number, i: number) => 1 / (1 / start + rate(i) * k) - AIR;
  const steadily = losing(() => 2e-10);
  test("cooling: of thirds of 149 s the last loses e^(-2 x 149/T) of what the first does per third; from means of thirds e^(-149/T), and 0.4 of it parts them", () => {
    const cooling = (T: number) => (k: number) => 1 / (1 / start + 3e-8 * (1 - Math.exp(-k / T))) - AIR;
    expect(fallGoesOn(sightOf(cooling(149 / Math.log(1 / 0.45))))).toBe(true);
    expect(fallGoesOn(sightOf(cooling(149 / Math.log(1 / 0.35))))).toBe(false);
  });
  test("a leak is in every rest: where one in three loses over half of the usual it may be, under half it is a draw that comes and goes", () => {
    const third = (share: number) => losing((i) => (i % 3 === 0 ? share : 1) * 2e-10);
    expect(fallGoesOn(sightOf(third(0.6)))).toBe(true);
    expect(fallGoesOn(sightOf(third(0.4)))).toBe(false);
    expect(fallGoesOn(sightOf(losing((i) => (i === 0 ? 0 : 2e-10))))).toBe(true); // one rest in twelve: water came from elsewhere
  });
  test("three standard errors of a difference between means of a third: sigma sqrt(2 / n) / p^2 over the time between them", () => {
    const error = (150 * Math.sqrt(2 / 149)) / start ** 2 / 149;
    expect(fallGoesOn(sightOf(losing(() => 2.5 * error)))).toBeNull();
    expect(fallGoesOn(sightOf(losing(() => 4.5 * error)))).toBe(true);
    expect(
      fallGoesOn(
        sightOf(
          losing(() => 4.5 * error),
          undefined,
          { loud: 2 },
        ),
      ),
    ).toBeNull();
  });
  test("seen in three rests, nine readings in each (of 80 s and 90 s, at 10 s)", () => {
    const idleIn = (count: number) => fallGoesOn(sightOf(steadily, undefined, { idleFor: IDLE.slice(1, 1 + count) }));
    expect([2, 3].map(idleIn)).toEqual([null, true]);
    const idleFor = (length: number) => IDLE.map(([from]) => [from + 100, length] as const);
    // 30 s of settling and two samples at the end are left out
    expect([130, 140].map((length) => fallGoesOn(sightOf(steadily, undefined, { step: 10, idleFor: idleFor(length) })))).toEqual([
      null,
      true,
    ]);
  });
  test("a coarse reading has the noise of its steps, a step over root twelve: three steps a rest are seen all the same", () => {
    const stepped = (k: number, i: number) => psi(0.2 * Math.round((52 - 0.2 * i - (0.6 * k) / REST) / 0.2));
    expect(fallGoesOn(sightOf(stepped, undefined, { loud: 0 }))).toBe(true);
  });
  test("missing readings are left out; without a pump's state or draws it cannot be asked", () => {
    expect(fallGoesOn(sightOf((k, i) => (k % 7 === 0 ? Number.NaN : steadily(k, i))))).toBe(true);
    const sight = sightOf(steadily);
    expect(fallGoesOn({ ...sight, record: recordOf([]) })).toBeNull();
    expect(fallGoesOn({ ...sight, segments: { ...sight.segments, draw: segmentsWith(null, null).draw } })).toBeNull();
    expect(fallGoesOn({ ...sight, segments: { ...sight.segments, pump: segmentsWith(null).pump } })).toBeNull();
  });
});

describe("gas constant from the starts of a drive", () => {
  // Worked by hand: a draw of 0.5 l/s begins 15 s before the start on a tank of K = 5000 J: 1/p rises by 0.5e-3 / 5000 = 1e-7 1/(Pa s).
  const [Q, K, BEGIN] = [0.5e-3, 5000, REST - 15];
  const rest = (k: number) => (k < BEGIN ? psi(52) : 1 / (1 / (psi(52) + AIR) + (Q / K) * (k - BEGIN)) - AIR);
  const within = (value: number | undefined) => expect((value ?? 0) / K);
  test("with a meter that sees the draw at all times", () => {
    within(gasConstantByStarts(sightOf(rest, (k) => (k >= BEGIN ? Q : 0)))?.value).toBeCloseTo(1, 1);
  });
  test("with a meter before the tank, which sees nothing while the pump rests", () => {
    within(gasConstantByStarts(sightOf(rest, (k) => (k >= REST ? Q : 0)))?.value).toBeCloseTo(1, 1);
  });
  test("not from a meter that sees only what goes into the tank", () => {
    expect(gasConstantByStarts(sightOf(rest, (k) => (k >= REST + 60 ? 10 * Q : k >= REST ? 0.1 * Q : 0)))).toBeNull();
  });
  const drawing = (k: number) => (k >= BEGIN ? Q : 0);
  const at = (unlike: Unlike, flow: (k: number, i: number) => number = drawing) => gasConstantByStarts(sightOf(rest, flow, unlike));
  test("from 10 to 35 s after a start the drive gives what is drawn: before, it fills the tank; later, another may draw", () => {
    const settled = (k: number) => (k < REST ? 0 : k < REST + 10 || k > REST + 35 ? 9 * Q : Q);
    within(at({}, settled)?.value).toBeCloseTo(1, 1);
    // the middle of what flows then: for 14 of the 26 s
    within(at({}, (k) => (k >= REST + 10 && k < REST + 24 ? Q : 9 * Q))?.value).toBeCloseTo(1, 1);
    const runsOf = (length: number) => RUNS.map(([from]) => [from, length] as const);
    within(at({ runs: runsOf(36) })?.value).toBeCloseTo(1, 1);
    expect(at({ runs: runsOf(34) })).toBeNull();
  });
  test("a quick fall lies between isothermal (n = 1) and adiabatic (n = 1.4): the interval reaches that much farther", () => {
    const seen = at({})!;
    expect(seen.starts).toBe(CYCLES - 1);
    expect(seen.high / seen.value).toBeGreaterThan(1.4);
    expect(seen.high / seen.value).toBeLessThan(1.5);
    expect(seen.value / seen.low).toBeGreaterThan(1.4);
    expect(seen.value / seen.low).toBeLessThan(1.5);
  });
  test("four starts at least, after rests that are seen whole", () => {
    expect(at({ runs: RUNS.slice(0, 5) })?.starts).toBe(4);
    expect(at({ runs: RUNS.slice(0, 4) })).toBeNull();
    const few = (falls: number) => gasConstantByStarts(sightOf((k, i) => (i > falls ? psi(52) : rest(k)), drawing));
    expect(few(4)?.starts).toBe(4); // the first rest has no run before it
    expect(few(3)).toBeNull();
  });
  test("less than three hundredths of the most that flows is nothing, and most starts must show more", () => {
    const most = (times: number) => at({}, (k) => (k < REST ? 0 : k > REST + 60 ? times * Q : Q));
    within(most(30)?.value).toBeCloseTo(1, 1);
    expect(most(37)).toBeNull();
    within(at({}, (k) => (k < REST ? 100 * Q : Q))?.value).toBeCloseTo(1, 1); // of what flows in runs
    const shownIn = (starts: number) => at({}, (k, i) => (k < REST ? 0 : i <= starts ? Q : 0))?.starts;
    expect(shownIn(6)).toBe(6);
    expect(shownIn(5)).toBeUndefined();
  });
  test("not without a meter, at over 5 s a sample, of a switch, nor where pressure or flow alone tell of the pump", () => {
    expect(at({ metered: false })).toBeNull();
    expect([5, 6].map((step) => at({ step }) !== null)).toEqual([true, false]);
    expect(at({ facts: { pump: "fixed-speed" } })).toBeNull();
    expect((["running", "current", "power", "flow", "pressure"] as const).map((basis) => at({ basis }) !== null)).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
    const sight = sightOf(rest, drawing);
    expect(gasConstantByStarts({ ...sight, segments: { ...sight.segments, pump: segmentsWith(null).pump } })).toBeNull();
  });
});
