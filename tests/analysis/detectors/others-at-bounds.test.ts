import { describe, expect, test } from "vitest";
import { leakDown } from "../../../analysis/detectors/leak-down";
import { overMarkedPressure } from "../../../analysis/detectors/over-marked-pressure";
import { sensor } from "../../../analysis/detectors/sensor";
import { tracking } from "../../../analysis/detectors/tracking";
import type { LogFault } from "../../../shared/record/log-fault";
import type { LogRecord } from "../../../shared/record/log-record";
import { readSiteFacts } from "../../../shared/site/read-site-facts";
import { seconds } from "../../../shared/units/quantity";
import { evidenceOf } from "../../builders/evidence";
import { alwaysRunning, evidenceOf as evidenceWith, recordOf as recordWith } from "../../builders/known-evidence";
import { channel, every, recordOf } from "../../builders/record";
import { noiseOf, seededRandom } from "../../builders/signals";
import { GPM, rareDraws, type TankLog, tankLog, usualTank } from "../../builders/tank-log";

const KPA = 1e3;
const blind = recordOf([channel("flow", every(1, 9), new Array(9).fill(0))]);

test("without a pressure each says so, about its own question", () => {
  expect(leakDown.detect(evidenceOf(blind))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pressure-channel", about: "leak" }],
  });
  expect(sensor.detect(evidenceOf(blind))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pressure-channel", about: "cause" }],
  });
  expect(tracking.detect(evidenceOf(blind))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pressure-channel", about: "cause" }],
  });
  expect(overMarkedPressure.detect(evidenceOf(blind, { tankRatedPressure: "500 kPa" }))).toMatchObject({
    state: "cannot-tell",
    because: [{ id: "no-pressure-channel", about: "tank" }],
  });
});

describe("water lost at rest", () => {
  const log = (change: Partial<TankLog>) => tankLog({ ...usualTank, draw: rareDraws, seconds: 7200, noise: 700, ...change });
  const outcomeOf = (record: LogRecord, facts: Record<string, unknown> = { flowMeter: "after-tank" }) =>
    leakDown.detect(evidenceOf(record, facts));
  const sideOf = (share: number, facts?: Record<string, unknown>) => {
    const outcome = outcomeOf(log({ draw: (t) => rareDraws(t) + 0.15 * share * GPM, unseen: 0.15 * (1 - share) * GPM }), facts);
    return outcome.state === "found" ? outcome.finding.side : outcome.state;
  };
  test("in the system where the meter sees over half of it, back where it sees under a fifth, between them open", () => {
    expect([0.02, 0.1, 0.35, 0.7, 1].map((share) => sideOf(share))).toEqual(["back", "back", "unknown", "system", "system"]);
  });
  test("open where the meter never showed so little: none moves below its starting flow (ISO 4064, from memory)", () => {
    expect(sideOf(0)).toBe("unknown");
  });
  test("so little that it would take half a day to bring the pump on is nobody's trouble", () => {
    expect(outcomeOf(log({ unseen: 0.002 * GPM, noise: 20 })).state).toBe("clear");
    expect(outcomeOf(log({ unseen: 0.05 * GPM, noise: 20 })).state).toBe("found");
  });
  test("not known without pump state or draws, and why; about the leak", () => {
    const pressure = recordWith({ pressure: [1, 2, 3] });
    expect(leakDown.detect(evidenceWith(pressure))).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "no-pump-state", about: "leak" }],
    });
    expect(leakDown.detect(evidenceWith(pressure, { pump: alwaysRunning(pressure) }))).toMatchObject({
      because: [{ id: "no-flow-channel", about: "leak" }],
    });
    const draw = { basis: "flow" as const, draws: [], idle: [] };
    expect(leakDown.detect(evidenceWith(pressure, { pump: alwaysRunning(pressure), draw }))).toMatchObject({
      because: [{ id: "nothing-to-see", about: "leak", detail: { idleStretches: 0, wanted: 2 } }],
    });
  });
  test("the channels that it rests on", () => {
    expect(outcomeOf(log({ unseen: 0.1 * GPM }))).toMatchObject({ finding: { channels: ["pressure", "flow"] } });
    const without = recordOf(log({ unseen: 0.1 * GPM }).channels.filter((c) => c.role !== "flow"));
    expect(outcomeOf(without, { tankVolume: "20 gal", precharge: "38 psi" })).toMatchObject({ finding: { channels: ["pressure"] } });
    for (const missing of ["tankVolume", "precharge"]) {
      const facts = { tankVolume: "20 gal", precharge: "38 psi", [missing]: undefined };
      expect(outcomeOf(without, facts), missing).toMatchObject({
        because: [{ id: "site-fact-missing", detail: { risePerPaS: expect.any(Number) } }],
      });
    }
  });
});

describe("the sensor as it reads", () => {
  const rough = noiseOf(600, seededRandom(4));
  const fault = (kind: LogFault["kind"], from: number, to: number, about: string | null = "pressure"): LogFault => ({
    kind,
    channel: about,
    from: seconds(from),
    to: seconds(to),
    note: { kind: "no-samples" },
  });
  const look = (values: ArrayLike<number>, faults: readonly LogFault[] = [], flow = true) => {
    const outcome = sensor.detect(
      evidenceWith(recordWith(flow ? { pressure: values, flow: rough } : { pressure: values }), {}, readSiteFacts({}, "site"), faults),
    );
    if (outcome.state !== "found") throw new Error(outcome.state);
    return outcome;
  };
  const noisy = rough.map((v) => 4e5 + 500 * v);
  test("its noise, where the steps of the values are finer than it", () => {
    expect(look(noisy).finding.noise! / 500).toBeCloseTo(1, 1);
    const coarse = look(rough.map((v) => 4e5 + 1000 * Math.round(0.6 * v)));
    expect(coarse.finding.noise).toBeNull();
    expect(coarse.limits).toEqual([{ id: "quantised-too-coarse", about: "cause", detail: {} }]);
    expect(look(new Float64Array(600).fill(4e5)).finding.noise).toBeNull();
  });
  test("what holds still, is clipped or over its range, of a pressure and no other", () => {
    const faults = [
      fault("stuck-value", 10, 40),
      fault("clipped", 50, 60),
      fault("above-range", 70, 80),
      fault("stuck-value", 90, 99, "flow"),
      fault("clipped", 1, 2, null),
      fault("gap", 3, 4),
    ];
    expect(look(noisy, faults).finding).toMatchObject({
      stuck: [{ from: 10, to: 40 }],
      frozen: [],
      pinned: [{ from: 50, to: 60 }, { from: 70, to: 80 }],
      places: [{ from: 10, to: 40 }, { from: 50, to: 60 }, { from: 70, to: 80 }],
      channels: ["pressure"],
    }); // biome-ignore format: spans
  });
  test("a flow would have told more, where neither flow nor draws are known", () => {
    expect(look(noisy, [], false).limits).toEqual([{ id: "no-flow-channel", about: "cause", detail: { missing: "flow" } }]);
    expect(look(noisy).limits).toEqual([]);
  });
});

describe("over the marked pressure", () => {
  const at = (all: readonly (readonly number[])[], facts: Record<string, unknown> = { tankRatedPressure: "500 kPa" }) =>
    overMarkedPressure.detect(evidenceOf(recordOf(all.map((kPa, i) => channel("pressure", every(10, kPa.length), kPa.map((p) => p * KPA), `P${i}`))), facts)); // biome-ignore format: one record
  const low = [400, 400, 400, 400, 400, 400, 400, 400];
  const over = (p: number) => [400, 400, 450, p, p, 450, 400, 400];
  test("of several channels the worst is told, wherever it stands", () => {
    for (const all of [
      [low, over(600), over(550)],
      [over(550), low, over(600)],
    ]) {
      // biome-ignore format: orders
      const outcome = at(all);
      if (outcome.state !== "found") throw new Error(outcome.state);
      expect(outcome.finding).toMatchObject({ marked: 500 * KPA, highest: 600 * KPA });
      expect(outcome.finding.channels).toHaveLength(1);
      expect(outcome.finding.total).toBeCloseTo(
        outcome.finding.places.reduce((sum, p) => sum + p.to - p.from, 0),
        9,
      );
    }
  });
  test("at the mark is not over it", () => {
    expect(at([over(500)]).state).toBe("clear");
    expect(at([over(501)]).state).toBe("found");
  });
});

describe("tracking", () => {
  const pressure = Float64Array.from({ length: 400 }, (_, i) => (i < 100 ? 300 : i < 300 ? 400 + (i % 2 === 0 ? 6 : -6) : 250) * KPA);
  const record = recordWith({ pressure });
  const runs = [{ from: seconds(100), to: seconds(299), complete: true }];
  const site = readSiteFacts({ setPressure: "400 kPa", pump: "variable-speed", limits: { band: "6 kPa" } }, "site");
  const findingOf = (segments: Parameters<typeof evidenceWith>[1]) => {
    const outcome = tracking.detect(evidenceWith(record, segments, site));
    if (outcome.state !== "found") throw new Error(outcome.state);
    return outcome.finding;
  };
  test("the band holds its edges, and only running time counts; lowest and highest are of the whole record", () => {
    const finding = findingOf({ pump: { ...alwaysRunning(record), mode: "switching", runs } });
    expect(finding).toMatchObject({
      shareWithinBand: 1,
      lowest: 250 * KPA,
      highest: 406 * KPA,
      band: 6 * KPA,
      channels: ["pressure"],
      places: [],
    });
    expect(finding.meanError).toBeCloseTo(0, 6);
  });
  test("where the pump's state is not known, or it never rests, all of the time counts", () => {
    const share = 200 / 400;
    expect(findingOf({}).shareWithinBand).toBe(share);
    expect(findingOf({ pump: alwaysRunning(record) }).shareWithinBand).toBe(share);
    expect(findingOf({}).meanError).toBeCloseTo((100 * -100e3 + 100 * -150e3) / 400, 3);
  });
  test("without running time there is no error to tell", () => {
    expect(findingOf({ pump: { ...alwaysRunning(record), mode: "switching", runs: [] } })).toMatchObject({
      meanError: null,
      shareWithinBand: null,
    });
  });
  test("a record without one reading is too short", () => {
    const empty = recordWith({ pressure: new Float64Array(5).fill(Number.NaN) });
    expect(tracking.detect(evidenceWith(empty))).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "record-too-short", about: "cause" }],
    });
  });
});
