import { describe, expect, test } from "vitest";
import { isFrost } from "../../../../analysis/detectors/sensor/frost";
import { scaleRatio } from "../../../../analysis/detectors/sensor/scale";
import type { Run } from "../../../../shared/findings/segment";
import type { ChannelQuantity } from "../../../../shared/record/channel-role";
import { readSiteFacts } from "../../../../shared/site/read-site-facts";
import { seconds } from "../../../../shared/units/quantity";
import { alwaysRunning, evidenceOf } from "../../../builders/known-evidence";
import { channel, every, recordOf } from "../../../builders/record";
import { span } from "../../../builders/trace";

const KPA = 1e3;
const run = (from: number, to: number): Run => ({ from: seconds(from), to: seconds(to), complete: true });

type Seen = {
  readonly speed?: ArrayLike<number>;
  readonly speedIs?: ChannelQuantity;
  readonly facts?: object;
  readonly runs?: readonly Run[] | null;
};
function ratioOf(kPa: ArrayLike<number>, { speed, speedIs = "fraction", facts = { setPressure: "400 kPa" }, runs }: Seen = {}) {
  const sampling = every(1, kPa.length);
  const pressure = channel(
    "pressure",
    sampling,
    Float64Array.from(kPa, (p) => p * KPA),
  );
  const speeds = speed === undefined ? [] : [{ ...channel("speed", sampling, speed), quantity: speedIs }];
  const record = recordOf([pressure, ...speeds]);
  const pump = alwaysRunning(record);
  const segments = runs === null ? {} : { pump: runs === undefined ? pump : { ...pump, mode: "switching" as const, runs } };
  return scaleRatio(evidenceOf(record, segments, readSiteFacts(facts, "site")), pressure);
}
const flat = (value: number, count = 100) => new Array<number>(count).fill(value);

describe("a drive that holds another pressure than its set one", () => {
  test("by over 15 % either way: the ratio; by less, settings differ so much", () => {
    expect(ratioOf(flat(464))).toBeCloseTo(1.16, 9);
    expect(ratioOf(flat(336))).toBeCloseTo(0.84, 9);
    expect(ratioOf(flat(456))).toBeNull();
    expect(ratioOf(flat(344))).toBeNull();
  });
  test("only where it is held: quartiles within 8 % of the middle", () => {
    const swinging = (by: number) => Array.from({ length: 400 }, (_, i) => 600 * (1 + (i % 2 === 0 ? by : -by)));
    expect(ratioOf(swinging(0.079))).not.toBeNull();
    expect(ratioOf(swinging(0.081))).toBeNull();
  });
  test("from twenty readings with the pump running, the first half of a short run left to settle", () => {
    expect(ratioOf(flat(600, 60), { runs: [run(0, 38)] })).toBe(1.5);
    expect(ratioOf(flat(600, 60), { runs: [run(0, 37)] })).toBeNull();
  });
  test("the first twenty seconds of a run settle, and rests do not count", () => {
    const pressure = Array.from({ length: 400 }, (_, i) => (i >= 100 && i < 120 ? 100 : i >= 100 && i <= 160 ? 600 : 90));
    expect(ratioOf(pressure, { runs: [run(100, 160)] })).toBe(1.5);
  });
  test("not where nothing is known of the pump, nor against a set pressure of nothing", () => {
    expect(ratioOf(flat(600), { runs: null })).toBeNull();
    expect(ratioOf(flat(600), { facts: {} })).toBeNull();
  });
  test("of a long record only some readings are looked at, and say the same", () => {
    expect(ratioOf(Array.from({ length: 90_000 }, (_, i) => (i < 200 ? 90 : 600)))).toBeCloseTo(1.5, 9);
  });
});

describe("a pump at its limit is weak and not wrongly scaled", () => {
  const low = flat(200);
  test("97 % of a drive in per cent", () => {
    expect(ratioOf(low, { speed: flat(0.98) })).toBeNull();
    expect(ratioOf(low, { speed: flat(0.96) })).toBe(0.5);
  });
  test("of the highest that was seen, in hertz", () => {
    const hertz = (usual: number) => Array.from({ length: 100 }, (_, i) => (i % 10 === 0 ? 50 : usual));
    expect(ratioOf(low, { speed: hertz(49), speedIs: "frequency" })).toBeNull();
    expect(ratioOf(low, { speed: hertz(48), speedIs: "frequency" })).toBe(0.5);
  });
  test("while it runs: what its speed was at rest says nothing", () => {
    const speed = (inside: number, outside: number) => Array.from({ length: 100 }, (_, i) => (i <= 40 ? inside : outside));
    expect(ratioOf(low, { speed: speed(0.98, 0), runs: [run(0, 40)] })).toBeNull();
    expect(ratioOf(low, { speed: speed(0.9, 1), runs: [run(0, 40)] })).toBe(0.5);
  });
  test("in a long record too, of which only some readings are looked at", () => {
    const speed = Array.from({ length: 60_000 }, (_, i) => (i < 10_000 ? 0.5 : 0.99));
    expect(ratioOf(flat(200, 60_000), { speed })).toBeNull();
  });
  test("a speed that stands at nothing, or of fewer than five readings, says nothing of a limit", () => {
    expect(ratioOf(low, { speed: flat(0), speedIs: "frequency" })).toBe(0.5);
    const speed = { ...channel("speed", { kind: "on-change", times: Float64Array.of(0, 1, 2, 3), until: seconds(99) }, flat(1, 4)) };
    const pressure = channel(
      "pressure",
      every(1, 100),
      low.map((p) => p * KPA),
    );
    const record = recordOf([pressure, speed]);
    const site = readSiteFacts({ setPressure: "400 kPa" }, "site");
    expect(scaleRatio(evidenceOf(record, { pump: alwaysRunning(record) }, site), pressure)).toBe(0.5);
  });
});

describe("a switch that stops the pump elsewhere than its cut-out", () => {
  // Five runs of 100 s from 300 to 500 kPa.
  const saw = Array.from({ length: 1001 }, (_, i) => (i % 200 < 100 ? 500 - 2 * (i % 200) : 300 + 2 * ((i % 200) - 100)));
  const runs = [100, 300, 500, 700, 900].map((from) => run(from, from + 100));
  const of = (facts: object) => ratioOf(saw, { runs, facts: { pump: "fixed-speed", ...facts } });
  test("is told by the ratio", () => {
    expect(of({ cutOut: "400 kPa" })).toBeCloseTo(1.25, 1);
    expect(of({ cutOut: "480 kPa" })).toBeNull();
  });
  test("of a fixed-speed pump even where a set pressure is stated; not without its cut-out, nor where it never stops", () => {
    expect(of({ setPressure: "380 kPa", cutOut: "400 kPa" })).toBeCloseTo(1.25, 1);
    expect(of({})).toBeNull();
    expect(ratioOf(saw, { runs: [], facts: { pump: "fixed-speed", cutOut: "400 kPa" } })).toBeNull();
    expect(ratioOf(saw, { runs: null, facts: { pump: "fixed-speed", cutOut: "400 kPa" } })).toBeNull();
  });
});

describe("frost: a temperature at or under 1.5 C during a stretch", () => {
  const cold = (kelvin: number, ...more: number[]) => {
    const values = Array.from({ length: 100 }, (_, i) => (i === 50 ? kelvin : 290));
    return recordOf([
      channel("temperature", every(1, 100), [...values]),
      ...more.map((k) => channel("temperature", every(1, 100), flat(k))),
    ]);
  };
  test("at its edge, at the first and the last second of the stretch, and nowhere else", () => {
    expect(isFrost(cold(274.65), span(40, 60))).toBe(true);
    expect(isFrost(cold(274.66), span(40, 60))).toBe(false);
    expect(isFrost(cold(270), span(50, 60))).toBe(true);
    expect(isFrost(cold(270), span(40, 50))).toBe(true);
    expect(isFrost(cold(270), span(51, 60))).toBe(false);
    expect(isFrost(cold(270), span(40, 49))).toBe(false);
    expect(isFrost(cold(290), span(40, 900))).toBe(false);
  });
  test("by any of the temperatures; by none where none was logged", () => {
    expect(isFrost(cold(290, 270), span(40, 60))).toBe(true);
    expect(isFrost(recordOf([]), span(40, 60))).toBe(false);
  });
});
