import { describe, expect, test } from "vitest";
import { tankCharge } from "../../../analysis/detectors/tank-charge";
import type { LivingTank, PumpState, Run } from "../../../shared/findings/segment";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { STANDARD_ATMOSPHERE } from "../../../shared/units/pressure";
import { seconds } from "../../../shared/units/quantity";
import { alwaysRunning, evidenceOf, recordOf } from "../../builders/known-evidence";

const KPA = 1e3;
const K = 25_000;
/** Five runs of 100 s that lift the pressure from 300 to 500 kPa. */
const SAW = Float64Array.from({ length: 1001 }, (_, i) => (i % 200 < 100 ? 500 - 2 * (i % 200) : 300 + 2 * ((i % 200) - 100)) * KPA);
const RUNS = [100, 300, 500, 700, 900].map((from): Run => ({ from: seconds(from), to: seconds(from + 100), complete: true }));

type Seen = {
  readonly tank?: Partial<LivingTank>;
  readonly pump?: Partial<PumpState> | null;
  readonly facts?: object;
  readonly flow?: boolean;
};
function findingOf({ tank = {}, pump = {}, facts = {}, flow = true }: Seen = {}) {
  const record = recordOf(flow ? { pressure: SAW, flow: SAW } : { pressure: SAW });
  const living: LivingTank = {
    heatTime: seconds(0),
    heatShare: 1,
    windows: [{ from: seconds(0), to: seconds(99), drawnVolume: null }],
    gasConstant: { value: K, low: 0.9 * K, high: 1.2 * K },
    give: { value: K, low: 0.9 * K, high: 1.2 * K },
    emptiesAt: null,
    emptiesBelow: null,
    points: { drawn: new Float64Array(0), inversePressure: new Float64Array(0), window: new Uint16Array(0) },
    ...tank,
  };
  const state = pump === null ? {} : { pump: { ...alwaysRunning(record), mode: "switching" as const, runs: RUNS, ...pump } };
  const outcome = tankCharge.detect(evidenceOf(record, { tank: living, ...state }, readSiteFacts(facts, "site")));
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
}
const water = (from: number, to: number) => 1 / (from * KPA + STANDARD_ATMOSPHERE) - 1 / (to * KPA + STANDARD_ATMOSPHERE);

test("what the living tank shows is handed on: constant, knee or bound, windows, channels", () => {
  const knee = { value: 210 * KPA, low: 200 * KPA, high: 220 * KPA };
  expect(findingOf({ tank: { emptiesAt: knee } })).toMatchObject({
    gasConstant: { value: K, low: 0.9 * K, high: 1.2 * K },
    emptiesAt: knee,
    emptiesBelow: null,
    places: [{ from: 0, to: 99 }],
    channels: ["pressure", "flow"],
  });
  expect(findingOf({ tank: { emptiesBelow: 290 * KPA }, flow: false })).toMatchObject({
    emptiesAt: null,
    emptiesBelow: 290 * KPA,
    channels: ["pressure"],
  });
});

describe("the water between stop and start, V = K (1/p1 - 1/p2)", () => {
  test("with the interval of the constant", () => {
    const drawn = findingOf().liveDrawdown!;
    expect(drawn.value / (K * water(300, 500))).toBeCloseTo(1, 1);
    expect(drawn.low / drawn.value).toBeCloseTo(0.9, 9);
    expect(drawn.high / drawn.value).toBeCloseTo(1.2, 9);
  });
  test("down to the knee where that lies above the start: below it the tank gives nothing more", () => {
    const from = (kPa: number) => findingOf({ tank: { emptiesAt: { value: kPa * KPA, low: kPa * KPA, high: kPa * KPA } } }).liveDrawdown;
    expect(from(400)!.value / (K * water(400, 500))).toBeCloseTo(1, 1);
    expect(from(200)!.value).toBe(findingOf().liveDrawdown!.value);
    expect(from(600)).toBeNull();
  });
  test("not without starts and stops", () => {
    expect(findingOf({ pump: null }).liveDrawdown).toBeNull();
    expect(findingOf({ pump: { runs: [] } }).liveDrawdown).toBeNull();
  });
});

test("the constant that the facts give, p0 Vt in absolute pressure", () => {
  const facts = { tankVolume: "100 L", precharge: "200 kPa" };
  expect(findingOf({ facts }).expectedGasConstant).toBeCloseTo(0.1 * (200 * KPA + STANDARD_ATMOSPHERE), 6);
  expect(findingOf({ facts: { tankVolume: "100 L" } }).expectedGasConstant).toBeNull();
  expect(findingOf({ facts: { precharge: "200 kPa" } }).expectedGasConstant).toBeNull();
});
test("a tank that the log does not show at work is not judged", () => {
  const evidence = evidenceOf(recordOf({ pressure: SAW }));
  expect(tankCharge.detect(evidence)).toEqual({ kind: "tank-charge", state: "cannot-tell", because: [evidence.segments.tank] });
});
