import { describe, expect, test } from "vitest";
import { leakDown } from "../../../analysis/detectors/leak-down";
import { evidenceOf } from "../../builders/evidence";
import { recordOf } from "../../builders/record";
import { GPM, rareDraws, type TankLog, tankLog, usualTank } from "../../builders/tank-log";

const log = (change: Partial<TankLog>) => tankLog({ ...usualTank, draw: rareDraws, seconds: 7200, noise: 700, ...change });
const detect = (change: Partial<TankLog>, facts: Record<string, unknown> = { flowMeter: "after-tank" }) =>
  leakDown.detect(evidenceOf(log(change), facts));

describe("water lost at rest (q = K d(1/p)/dt)", () => {
  test("what the meter does not see goes back", () => {
    const outcome = detect({ unseen: 0.1 * GPM, draw: (t) => (t > 5000 && t < 5040 ? 0.08 * GPM : rareDraws(t)) });
    expect(outcome).toMatchObject({ state: "found", finding: { side: "back" } });
    if (outcome.state === "found") expect(Math.abs(outcome.finding.flow.value / (0.1 * GPM) - 1)).toBeLessThan(0.15);
  });
  test("what it sees is lost in the system", () => {
    const outcome = detect({ draw: (t) => rareDraws(t) + 0.15 * GPM });
    expect(outcome).toMatchObject({ state: "found", finding: { side: "system" } });
    if (outcome.state === "found") expect(Math.abs(outcome.finding.flow.value / (0.15 * GPM) - 1)).toBeLessThan(0.15);
  });
  test("a loss so large that the pump starts every minute is measured on whole rests", () => {
    const outcome = detect({ unseen: 6 * GPM, draw: (t) => (t % 170 < 30 ? 4 * GPM : 0) });
    expect(outcome).toMatchObject({ state: "found", finding: { side: "back" } });
    if (outcome.state === "found") expect(Math.abs(outcome.finding.flow.value / (6 * GPM) - 1)).toBeLessThan(0.15);
  });
  test("a tight system is clear", () => {
    expect(detect({}).state).toBe("clear");
  });
  test("without a meter the tank of the site facts gives the amount and the side stays open", () => {
    const record = recordOf(log({ unseen: 0.1 * GPM }).channels.filter((c) => c.role !== "flow"));
    const outcome = leakDown.detect(evidenceOf(record, { tankVolume: "20 gal", precharge: "38 psi" }));
    expect(outcome).toMatchObject({ state: "found", finding: { side: "unknown" } });
    if (outcome.state !== "found") return;
    expect(Math.abs(outcome.finding.flow.value / (0.1 * GPM) - 1)).toBeLessThan(0.15);
    const { low, value, high } = outcome.finding.flow; // a volume within 5 % and a charge within 2.9 psi of 38 psi and the air's 14.7: 7.4 %
    expect(high / value - 1).toBeGreaterThan(0.07);
    expect(1 - low / value).toBeGreaterThan(0.07);
  });
  test("without a meter falls of many slopes are draws as well as a leak, and nothing is said", () => {
    const taps = [0.05, 0.3, 0.12, 0.02, 0.2, 0.08, 0.26, 0.15, 0.04, 0.1, 0.22]; // gpm, one a rest: a valve that seldom closes quite
    const slow = (t: number) => taps[Math.floor(t / 660) % taps.length] * GPM;
    const record = recordOf(log({ draw: (t) => rareDraws(t) || slow(t) }).channels.filter((c) => c.role !== "flow"));
    expect(leakDown.detect(evidenceOf(record, { tankVolume: "20 gal", precharge: "38 psi" }))).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "nothing-to-see" }],
    });
  });
  test("without meter and facts the amount cannot be told", () => {
    const record = recordOf(log({ unseen: 0.1 * GPM }).channels.filter((c) => c.role !== "flow"));
    expect(leakDown.detect(evidenceOf(record))).toMatchObject({
      state: "cannot-tell",
      because: [{ id: "site-fact-missing", detail: { missing: "tankVolume" } }],
    });
  });
});
