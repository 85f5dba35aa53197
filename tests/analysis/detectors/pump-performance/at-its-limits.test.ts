import { describe, expect, test } from "vitest";
import { pumpPerformance } from "../../../../analysis/detectors/pump-performance";
import { highestMinute } from "../../../../analysis/detectors/pump-performance/highest-minute";
import type { PumpState } from "../../../../shared/findings/segment";
import type { ChannelQuantity } from "../../../../shared/record/channel-role";
import type { Channel, LogRecord } from "../../../../shared/record/log-record";
import { readSiteFacts } from "../../../../shared/site/read-site-facts";
import { alwaysRunning, evidenceOf } from "../../../builders/known-evidence";
import { channel, every, recordOf } from "../../../builders/record";

const KPA = 1e3;
/** Usual running: 400 kPa, 1 L/s, 80 %. */
type Row = { readonly kPa: number; readonly flow: number; readonly speed: number; readonly amps?: number };
const USUAL: Row = { kPa: 400, flow: 1e-3, speed: 0.8, amps: 10 };
type Part = Partial<Row> & { readonly s: number; readonly kPaAt?: (t: number) => number };

type Seen = {
  readonly without?: readonly string[];
  readonly speedIs?: ChannelQuantity;
  readonly facts?: object;
  readonly pump?: Partial<PumpState>;
};

/** Ten minutes as usual, the parts, ten minutes as usual; a sample a second, the pump running throughout unless `pump` says otherwise. */
function recordOfParts(parts: readonly Part[], { without = [], speedIs = "fraction" }: Seen): LogRecord {
  const rows = [{ s: 600 }, ...parts, { s: 600 }].flatMap(({ s, kPaAt, ...row }: Part) =>
    Array.from({ length: s }, (_, t) => ({ ...USUAL, ...row, ...(kPaAt === undefined ? {} : { kPa: kPaAt(t) }) })),
  );
  const of = (role: "pressure" | "flow" | "speed" | "current", value: (row: Row) => number): Channel =>
    channel(role, every(1, rows.length), rows.map(value));
  const channels = [
    of("pressure", (row) => row.kPa * KPA),
    of("flow", (row) => row.flow),
    { ...of("speed", (row) => row.speed), quantity: speedIs },
    of("current", (row) => row.amps ?? 10),
  ];
  return recordOf(channels.filter(({ role }) => !without.includes(role)));
}
function outcomeOf(parts: readonly Part[], seen: Seen = {}) {
  const record = recordOfParts(parts, { without: ["current"], ...seen });
  const site = readSiteFacts(seen.facts ?? { setPressure: "400 kPa", pumpRatedFlow: "2 L/s", limits: { band: "20 kPa" } }, "site");
  return pumpPerformance.detect(evidenceOf(record, { pump: { ...alwaysRunning(record), ...seen.pump } }, site));
}
function findingOf(parts: readonly Part[], seen: Seen = {}) {
  const outcome = outcomeOf(parts, seen);
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
}

describe("loss of prime: pressure and flow gone together while the pump runs", () => {
  const dry: Part = { s: 60, kPa: 100, flow: 0 };
  test("is found where it was, its ends halfway down and up", () => {
    const [span, ...others] = findingOf([dry]).lossOfPrime;
    expect(others).toEqual([]);
    expect(span.from).toBeCloseTo(600, -0.5);
    expect(span.to).toBeCloseTo(660, -0.5);
  });
  test("takes under two fifths of the usual pressure and under a tenth of the usual flow", () => {
    const lost = (kPa: number, flow: number) => findingOf([{ s: 60, kPa, flow }]).lossOfPrime.length;
    expect(lost(159, 0.09e-3)).toBe(1);
    expect(lost(161, 0.09e-3)).toBe(0);
    expect(lost(159, 0.11e-3)).toBe(0);
  });
  test("lasts eight seconds at least", () => {
    expect(findingOf([{ ...dry, s: 9 }]).lossOfPrime).toHaveLength(1);
    expect(findingOf([{ ...dry, s: 7 }]).lossOfPrime).toHaveLength(0);
  });
  test("counts only while the pump runs", () => {
    const runs = [{ from: 0, to: 590, complete: false }, { from: 670, to: 1259, complete: false }] as unknown as PumpState["runs"]; // biome-ignore format: two runs
    expect(findingOf([dry], { pump: { runs, mode: "switching" } }).lossOfPrime).toEqual([]);
  });
  test("without a meter the motor tells by running unloaded; without a motor either, nothing is said", () => {
    const lost = (amps: number, ...without: string[]) =>
      findingOf([{ ...dry, amps }], { without: ["flow", ...without] }).lossOfPrime.length;
    expect(lost(6)).toBe(1);
    expect(lost(8)).toBe(0);
    expect(lost(6, "current")).toBe(0);
  });
  test("a pump state that was read from pressure or flow itself would go round in a circle", () => {
    for (const basis of ["pressure", "flow"] as const) expect(findingOf([dry], { pump: { basis } }).lossOfPrime).toEqual([]);
  });
  test("flow that rests for most of the time has a usual height all the same", () => {
    expect(findingOf([{ s: 2000, flow: 0 }, dry, { s: 5, flow: 0 }]).lossOfPrime).toHaveLength(1);
  });
});

describe("overdraw: full speed, pressure below the band, much flow", () => {
  const over: Part = { s: 120, kPa: 350, flow: 3e-3, speed: 1 };
  const spans = (part: Partial<Part>, seen: Seen = {}) => findingOf([{ ...over, ...part }], seen).overdraw.length;
  test("below the band about the set pressure, not in it", () => {
    expect(spans({ kPa: 379 })).toBe(1);
    expect(spans({ kPa: 381 })).toBe(0);
  });
  test("for half a minute", () => {
    expect(spans({ s: 32 })).toBe(1);
    expect(spans({ s: 28 })).toBe(0);
  });
  test("with three tenths of the rated flow, or of the highest where none is stated", () => {
    expect(spans({ flow: 0.61e-3 })).toBe(1);
    expect(spans({ flow: 0.59e-3 })).toBe(0);
    const facts = { setPressure: "400 kPa", limits: { band: "20 kPa" } };
    expect(spans({ flow: 0.31e-3 }, { facts })).toBe(1);
    expect(spans({ flow: 0.29e-3 }, { facts })).toBe(0);
  });
  test("at full speed only: 97 % of 100 %, or of the highest of a drive in hertz that reached 45", () => {
    expect(spans({ speed: 0.98 })).toBe(1);
    expect(spans({ speed: 0.94 })).toBe(0);
    const hertz = (full: number) => findingOf([{ ...over, speed: full }], { speedIs: "frequency" }).overdraw.length;
    expect(hertz(50)).toBe(1);
    expect(hertz(44)).toBe(0);
  });
  test("where flow is not logged, full speed and low pressure are enough; without a set pressure nothing is", () => {
    expect(spans({}, { without: ["flow", "current"] })).toBe(1);
    expect(spans({}, { facts: {} })).toBe(0);
    expect(spans({}, { without: ["speed", "current"] })).toBe(0);
  });
  test("not where pressure was lowest at once and rose from there: a tank being filled", () => {
    // From 300 kPa back to 375, of 80 kPa to the band: more than a quarter of the way. In an overdraw it falls first.
    expect(spans({ kPaAt: (t) => 300 + (75 * t) / 120 })).toBe(0);
    expect(spans({ kPaAt: (t) => 300 + (15 * t) / 120 })).toBe(1);
    // Lowest within the first fifth is at once, later is not.
    const lowestAt = (s: number) => (t: number) => (t < s ? 375 - (75 * t) / s : 300 + (75 * (t - s)) / (120 - s));
    expect(spans({ kPaAt: lowestAt(18) })).toBe(0);
    expect(spans({ kPaAt: lowestAt(30) })).toBe(1);
    expect(spans({ kPaAt: (t) => 375 - (75 * t) / 120 })).toBe(1);
    expect(spans({ kPaAt: (t) => (t < 40 ? 375 - (75 * t) / 40 : 300 + (75 * (t - 40)) / 80) })).toBe(1);
  });
});

describe("shutoff pressure: full speed, hardly any flow, standing still", () => {
  const shut: Part = { s: 60, kPa: 520, flow: 0, speed: 1 };
  const seen = (...parts: Part[]) => findingOf(parts).shutoffPressure;
  test("is the pressure there", () => expect(seen(shut)! / KPA).toBeCloseTo(520, 6));
  test("takes under a tenth of the highest flow", () => {
    expect(seen({ ...shut, flow: 0.09e-3 })! / KPA).toBeCloseTo(520, 6);
    expect(seen({ ...shut, flow: 0.11e-3 })).toBeNull();
  });
  test("is not read while pressure still rises, nor in the first three seconds, nor from fewer than three readings", () => {
    expect(seen({ ...shut, kPaAt: (t) => 400 + 2 * t })).toBeNull();
    expect(seen({ ...shut, kPaAt: (t) => (t < 3 ? 600 : 520) })! / KPA).toBeCloseTo(520, 6);
    // Speed passes full 0.2 s before the stretch and 0.8 s before its end: readings from 3 s after to 8 s before are s - 11.
    expect(seen({ ...shut, s: 13 })).toBeNull();
    expect(seen({ ...shut, s: 14 })).not.toBeNull();
  });
  test("is not read where the drive has slowed down, though no water flows there", () => {
    expect(seen(shut, { s: 200, kPa: 300, flow: 0, speed: 0.5 })! / KPA).toBeCloseTo(520, 6);
  });
  test("stands still within half a per cent, or four times its noise", () => {
    const rising = (perSecond: number) => seen({ ...shut, kPaAt: (t) => 500 + perSecond * t });
    expect(rising(2.4 / 8)).not.toBeNull();
    expect(rising(2.8 / 8)).toBeNull();
    expect(seen({ ...shut, kPaAt: (t) => 500 + (t % 2 === 0 ? 1.6 : -1.6) + (2.8 / 8) * t })).toBeNull();
  });
  test("a drive in hertz is at full speed near its highest, from 45 Hz on; turns a minute near theirs, whatever that is", () => {
    const of = (full: number, speedIs: ChannelQuantity) => findingOf([{ ...shut, speed: full }], { speedIs }).shutoffPressure;
    expect(of(50, "frequency")! / KPA).toBeCloseTo(520, 6);
    expect(of(45, "frequency")! / KPA).toBeCloseTo(520, 6);
    expect(of(44, "frequency")).toBeNull();
    expect(of(30, "rotation")! / KPA).toBeCloseTo(520, 6);
    expect(of(30, "none")).toBeNull();
  });
  test("is held against a third more than the set pressure (one-point curve, EPANET 2.2), where set pressure and rated flow are stated", () => {
    expect(findingOf([shut]).expectedShutoff! / KPA).toBeCloseTo(1.33 * 400, 6);
    expect(findingOf([shut], { facts: { setPressure: "400 kPa" } }).expectedShutoff).toBeNull();
    expect(findingOf([shut], { facts: { pumpRatedFlow: "2 L/s" } }).expectedShutoff).toBeNull();
    expect(findingOf([]).expectedShutoff).toBeNull();
  });
  test("is not known without a meter, nor at less than full speed", () => {
    expect(findingOf([shut], { without: ["flow", "current"] }).shutoffPressure).toBeNull();
    expect(seen({ ...shut, speed: 0.9 })).toBeNull();
  });
});

describe("the highest flow held for a minute", () => {
  test("is a mean over a whole minute", () => {
    expect(findingOf([{ s: 61, flow: 2e-3 }]).peakFlow! / 2e-3).toBeCloseTo(1, 6);
    expect(findingOf([{ s: 30, flow: 2e-3 }]).peakFlow! / 1.5e-3).toBeCloseTo(1, 1);
  });
  test("is not known without a meter", () => expect(findingOf([], { without: ["flow", "current"] }).peakFlow).toBeNull());
  test("nor from a log of less", () => {
    const lasting = (s: number) => highestMinute(evidenceOf(recordOf([channel("flow", every(1, s + 1), new Array(s + 1).fill(1e-3))])));
    expect(lasting(59)).toBeNull();
    expect(lasting(60)).toBeCloseTo(1e-3, 12);
  });
});

test("the finding says where, by what, and what a speed would have told", () => {
  const finding = findingOf([{ s: 60, kPa: 100, flow: 0 }, { s: 90 }, { s: 120, kPa: 350, flow: 3e-3, speed: 1 }]);
  expect(finding.places).toEqual([...finding.lossOfPrime, ...finding.overdraw]);
  expect(finding.places).toHaveLength(2);
  expect(finding.channels).toEqual(["pressure", "flow", "speed"]);
  expect(outcomeOf([])).toMatchObject({ limits: [] });
  expect(outcomeOf([], { without: ["speed", "current"] })).toMatchObject({
    limits: [{ id: "no-pump-state", about: "cause", detail: { missing: "speed" } }],
  });
});
test("without a pressure or a pump state nothing is said, and why", () => {
  const record = recordOfParts([], {});
  const blind = evidenceOf({ ...record, channels: record.channels.slice(1) });
  expect(pumpPerformance.detect(blind)).toMatchObject({ state: "cannot-tell", because: [{ id: "no-pressure-channel", about: "cause" }] });
  expect(pumpPerformance.detect(evidenceOf(record))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pump-state", about: "cause" }],
  });
});
