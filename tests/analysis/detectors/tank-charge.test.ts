import { describe, expect, test } from "vitest";
import { tankCharge } from "../../../analysis/detectors/tank-charge";
import { seededRandom } from "../../../analysis/numerics/random";
import { PASCAL_PER_PSI as PSI } from "../../../shared/units/pressure";
import { evidenceOf } from "../../builders/evidence";
import { channel, every, recordOf } from "../../builders/record";
import { GAL, GPM, gasConstantOf, someDraws, type TankLog, tankLog, usualTank } from "../../builders/tank-log";

const AFTER = { flowMeter: "after-tank" };
const detect = (log: Partial<TankLog>, facts: Record<string, unknown> = AFTER) =>
  tankCharge.detect(evidenceOf(tankLog({ ...usualTank, draw: someDraws, seconds: 7200, noise: 700, ...log }), facts));
const found = (log: Partial<TankLog>, facts?: Record<string, unknown>) => {
  const outcome = detect(log, facts);
  if (outcome.state !== "found") throw new Error(JSON.stringify(outcome));
  return outcome.finding;
};

const amountOf = (quantity: { readonly value: number } | null): number => quantity?.value ?? Number.NaN;

describe("the gas constant from metered draws (Boyle's law: 1/p rises by 1/K per volume)", () => {
  test("is p0 Vt within half a per cent on a quiet sensor", () => {
    const { gasConstant } = found({});
    expect(amountOf(gasConstant) / gasConstantOf(usualTank)).toBeCloseTo(1, 2);
  });
  test("lies in its interval in most of twenty noisy logs", () => {
    const inside = Array.from({ length: 20 }, (_, seed) => {
      const { gasConstant: k } = found({ seed: seed + 1, noise: 3000, seconds: 3600 });
      return k !== null && k.low <= gasConstantOf(usualTank) && gasConstantOf(usualTank) <= k.high;
    });
    expect(inside.filter(Boolean).length).toBeGreaterThanOrEqual(17); // 95 % of 20 is 19; 17 or more in 98 % of such tests
  });
  test("is not moved by friction between tank and sensor", () => {
    const friction = (4 * PSI) / (5 * (GAL / 60)) ** 2;
    expect(amountOf(found({ friction }).gasConstant) / gasConstantOf(usualTank)).toBeCloseTo(1, 1);
  });
  test("is not moved by a meter that trembles at zero, where readings below zero are cut off", () => {
    // What is cut off leaves s / sqrt(2 pi) on average: over twenty idle minutes a quarter of what the draw after them takes.
    const chance = seededRandom(5);
    const rests = (t: number) => (t % 1260 < 1200 ? 0 : 4 * GPM);
    const log = tankLog({ ...usualTank, draw: rests, seconds: 12 * 3600, noise: 700 });
    const channels = log.channels.map((c) =>
      c.role === "flow" ? { ...c, values: c.values.map((q) => Math.max(0, q + 0.12 * GPM * chance.normal())) } : c,
    );
    const outcome = tankCharge.detect(evidenceOf({ ...log, channels }, AFTER));
    if (outcome.state !== "found") throw new Error(JSON.stringify(outcome));
    expect(amountOf(outcome.finding.gasConstant) / gasConstantOf(usualTank)).toBeCloseTo(1, 1);
  });
  test("is not moved by a leak that empties the tank in less than a minute, beyond what gas that keeps its heat for so long leaves open", () => {
    const { gasConstant } = found({ unseen: 6 * GPM, draw: (t) => (t % 170 < 30 ? 4 * GPM : 0) });
    const of = (joules: number | undefined) => (joules ?? Number.NaN) / gasConstantOf(usualTank);
    expect(of(gasConstant?.low)).toBeGreaterThan(0.9);
    expect(of(gasConstant?.low)).toBeLessThan(1);
    expect(of(gasConstant?.value)).toBeLessThan(1.4); // the ratio of specific heats of air
    expect(of(gasConstant?.high)).toBeGreaterThan(1);
  });
  test("gives the water between cut-out and cut-in", () => {
    // V = K (1/p1 - 1/p2): 20 gal at 38 psi between 40 and 60 psi: 52.696/54.696 - 52.696/74.696 = 0.2580 of 20 gal (0.258 in the trade's table)
    const drawdown = found({}).liveDrawdown;
    expect(amountOf(drawdown) / (20 * GAL * 0.258)).toBeGreaterThan(0.94);
    expect(amountOf(drawdown) / (20 * GAL * 0.258)).toBeLessThan(1.06);
  });
});

describe("where the tank empties", () => {
  test("is its precharge, within 2 psi, where the log gets there", () => {
    const { emptiesAt } = found({ precharge: 46 * PSI });
    expect(Math.abs(amountOf(emptiesAt) / PSI - 46)).toBeLessThan(2);
  });
  test("is only bounded where the pump starts before", () => {
    const { emptiesAt, emptiesBelow } = found({ precharge: 30 * PSI });
    expect(emptiesAt).toBeNull();
    expect(emptiesBelow! / PSI).toBeGreaterThan(39);
    expect(emptiesBelow! / PSI).toBeLessThan(43);
  });
});

describe("what this log cannot show", () => {
  test("without flow", () => {
    const pressure = tankLog({ ...usualTank, draw: someDraws, seconds: 3600 }).channels.filter((c) => c.role !== "flow");
    expect(tankCharge.detect(evidenceOf(recordOf(pressure)))).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "no-flow-channel", about: "tank" }],
    });
  });
  test("with a meter before the tank", () => {
    expect(detect({}, { flowMeter: "before-tank" })).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "nothing-to-see", detail: { why: "meter-before-tank" } }],
    });
  });
  test("with a pump that never rests", () => {
    const n = 600;
    const record = recordOf([
      channel("pressure", every(1, n), new Float64Array(n).fill(4e5)),
      channel(
        "flow",
        every(1, n),
        Array.from({ length: n }, (_, i) => someDraws(i)),
      ),
      channel("running", every(1, n), new Float64Array(n).fill(1)),
    ]);
    expect(tankCharge.detect(evidenceOf(record, AFTER))).toMatchObject({ state: "cannot-tell", because: [{ id: "nothing-to-see" }] });
  });
});
