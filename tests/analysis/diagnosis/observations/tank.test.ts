import { describe, expect, test } from "vitest";
import type { TankChargeFinding } from "../../../../shared/findings/finding";
import { STANDARD_ATMOSPHERE } from "../../../../shared/units/pressure";
import { joule } from "../../../../shared/units/quantity";
import { levelAt, lookAt, SWITCHED } from "../../../builders/look-at";
import { about, foundWith, psi } from "../../../builders/outcomes";

const tank = (change: Partial<TankChargeFinding>) => [foundWith("tank-charge", change)];
const GAL = 3.785411784e-3;
const absolute = (p: number) => psi(p) + STANDARD_ATMOSPHERE;

describe("the tank by its facts", () => {
  test("a drive's against a fifth of a minute of the rated flow (40 gpm: 8 gal): under 0.4 tiny, under 0.85 small", () => {
    const at = (gal: number) => levelAt("tank-by-facts", { facts: { tankVolume: `${gal} gal` } });
    expect([3.1, 3.3, 6.7, 6.9].map(at)).toEqual(["tiny", "small", "small", "ample"]);
    const { numbers } = lookAt("tank-by-facts")!;
    expect(numbers.volume).toBeCloseTo(20 * GAL, 9);
    expect(numbers.practice).toBeCloseTo(8 * GAL, 9);
  });
  test("a switch's by the water between start and stop, K (1/p1 - 1/p2), against a minute of the rated flow", () => {
    // 40 to 60 psi with 38 psi of charge: 0.2580 of the volume (the trade's table of drawdown), so that 15.5 gal a gallon.
    const share = absolute(38) * (1 / absolute(40) - 1 / absolute(60));
    const at = (minutes: number, charge?: string) =>
      lookAt("tank-by-facts", {
        facts: { ...SWITCHED, precharge: charge, pumpRatedFlow: "10 gpm", tankVolume: `${(minutes * 10) / share} gal` },
      });
    expect([0.39, 0.41, 0.84, 0.86].map((m) => at(m)?.level)).toEqual(["tiny", "small", "small", "ample"]);
    expect(at(0.5)?.numbers).toEqual({ volume: expect.closeTo((5 / share) * GAL, 9), ratio: expect.closeTo(0.5, 9) });
    // The charge as read comes before the usual one: half of it, half of the water.
    expect(at(0.5, "20 psi")?.numbers.ratio).toBeCloseTo((0.5 * absolute(20)) / absolute(38), 6);
  });
  test("not without the volume, the rated flow or (a switch) its two pressures", () => {
    expect(levelAt("tank-by-facts", { facts: { tankVolume: undefined } })).toBeNull();
    expect(levelAt("tank-by-facts", { facts: { pumpRatedFlow: undefined } })).toBeNull();
    expect(levelAt("tank-by-facts", { facts: { ...SWITCHED, pumpRatedFlow: undefined } })).toBeNull();
    expect(levelAt("tank-by-facts", { facts: { ...SWITCHED, precharge: undefined, cutIn: undefined } })).toBeNull();
    expect(levelAt("tank-by-facts", { facts: { ...SWITCHED, cutOut: undefined } })).toBeNull();
  });
});

describe("the charge by its fact", () => {
  test("a drive's follows the set pressure (52 psi): 8 to 25 psi below it is no fault", () => {
    const at = (charge: number) => levelAt("precharge-by-facts", { facts: { precharge: `${charge} psi` } });
    expect([44.5, 43.5, 27.5, 26.5].map(at)).toEqual(["high", "in-band", "in-band", "low"]);
    expect(lookAt("precharge-by-facts")?.numbers).toEqual({ precharge: psi(35), reference: psi(52) });
  });
  test("of a high set pressure up to 0.4 of it", () => {
    const at = (charge: number) => levelAt("precharge-by-facts", { facts: { setPressure: "100 psi", precharge: `${charge} psi` } });
    expect([61, 59].map(at)).toEqual(["in-band", "low"]);
  });
  test("a switch's follows its cut-in (40 psi): 1 above to 10 below", () => {
    const at = (charge: number) => lookAt("precharge-by-facts", { facts: { ...SWITCHED, precharge: `${charge} psi` } });
    expect([41.5, 40.5, 30.5, 29.5].map((c) => at(c)?.level)).toEqual(["high", "in-band", "in-band", "low"]);
    expect(at(38)?.numbers.reference).toBe(psi(40));
  });
  test("not where the charge or what it follows is not known", () => {
    expect(levelAt("precharge-by-facts", { facts: { precharge: undefined } })).toBeNull();
    expect(levelAt("precharge-by-facts", { only: [], facts: { setPressure: undefined } })).toBeNull();
    expect(levelAt("precharge-by-facts", { facts: { ...SWITCHED, cutIn: undefined } })).toBeNull();
  });
});

describe("the gas constant against the one of the facts", () => {
  const at = (
    ratio: number,
    { expected = 26000, facts = {}, percent = 5 }: { expected?: number | null; facts?: object; percent?: number } = {},
  ) =>
    lookAt("gas-constant", {
      outcomes: tank({
        gasConstant: about(joule(ratio * 26000), percent),
        expectedGasConstant: expected === null ? null : joule(expected),
      }),
      facts: { ...facts },
    });
  test("collapsed under nine tenths of what an empty charge leaves; reduced by a fifth more than plate, gauge and meter can be wrong; raised from 1.3", () => {
    // 20 gal at the atmosphere: 7671 J of 26000, 0.295; nine tenths of that are 0.2655.
    const lost = (20 * GAL * STANDARD_ATMOSPHERE) / 26000;
    expect([0.89 * lost, 0.91 * lost, 0.65, 0.71, 0.8, 0.88, 1.29, 1.4].map((r) => at(r)?.level)).toEqual([
      "collapsed",
      "reduced",
      "reduced",
      "lessened",
      "lessened",
      "as-expected",
      "as-expected",
      "raised",
    ]);
    expect(at(1)?.numbers).toEqual({ constant: 26000, expected: 26000, ratio: 1 });
  });
  test("collapsed never above 0.6, however little charge there should be", () => {
    const little = { expected: 9000, facts: { setPressure: "18 psi", precharge: "2 psi" } }; // 16 psi below: in its band
    expect(at((0.59 * 9000) / 26000, little)?.level).toBe("collapsed");
    expect(at((0.61 * 9000) / 26000, little)?.level).toBe("reduced");
  });
  test("less or more than it should be only where all of the interval is", () => {
    expect([0.84, 0.86].map((r) => at(r)?.level)).toEqual([undefined, undefined]); // 5 % either way reaches 0.87
    expect(at(1.33)).toBeNull();
  });
  test("a charge that was not read: the usual one, 17.5 psi below set pressure, with wider edges, and said so", () => {
    const usual = 20 * GAL * absolute(52 - 17.5);
    const of = (ratio: number) => at((ratio * usual) / 26000, { expected: null });
    // The lowest charge of its band is 25 psi below 52: K is then 0.848 of the usual one, and plate, gauge and meter take 0.87 of that: 0.738.
    expect([0.58, 0.6, 0.69, 0.75, 1.49, 1.6].map((r) => of(r)?.level)).toEqual([
      "reduced",
      "lessened",
      "lessened",
      "as-expected",
      "as-expected",
      "raised",
    ]);
    expect(of(1)?.numbers).toEqual({
      constant: expect.closeTo(usual, 3),
      expected: expect.closeTo(usual, 3),
      ratio: expect.closeTo(1, 9),
      usual: expect.closeTo(psi(34.5), 3),
    });
  });
  test("a charge that was read low is no measure of what the tank should give: the usual one stands for it", () => {
    const usual = 20 * GAL * absolute(52 - 17.5);
    const low = at((0.55 * usual) / 26000, { expected: 0.55 * usual, facts: { precharge: "10 psi" } });
    expect(low?.level).toBe("reduced");
    expect(low?.numbers).toMatchObject({ ratio: expect.closeTo(0.55, 9), usual: expect.closeTo(psi(34.5), 3) });
  });
  test("a switch's usual one is 2 psi below its cut-in", () => {
    const usual = 20 * GAL * absolute(38);
    expect(at(usual / 26000, { expected: null, facts: SWITCHED })?.numbers).toMatchObject({
      ratio: expect.closeTo(1, 9),
      usual: expect.closeTo(psi(38), 3),
    });
    expect(at(1, { expected: null, facts: { ...SWITCHED, cutIn: undefined } })).toBeNull();
    // The charge may stand a fifth lower, and plate, gauge and meter (0.87): 0.696; far less is a fifth less than that, 0.557.
    const of = (ratio: number, facts = {}) => at((ratio * usual) / 26000, { expected: null, facts: { ...SWITCHED, ...facts } })?.level;
    expect([0.54, 0.57, 0.64, 0.68, 0.72].map((ratio) => of(ratio))).toEqual(["reduced", "lessened", "lessened", undefined, "as-expected"]);
    expect(of(0.72, { setPressure: "52 psi" })).toBe("as-expected"); // what is written of a drive does not count
  });
  test("an interval that reaches from one to over three times says nothing", () => {
    expect(at(1, { percent: 49 })).not.toBeNull();
    expect(at(1, { percent: 51 })).toBeNull();
    expect(at(1, { percent: 100 })).toBeNull();
  });
  test("not without a measured constant, a volume or a pressure that the charge follows", () => {
    expect(levelAt("gas-constant", { outcomes: tank({ gasConstant: null }) })).toBeNull();
    expect(levelAt("gas-constant", { only: [] })).toBeNull();
    expect(at(1, { facts: { tankVolume: undefined } })).toBeNull();
    expect(levelAt("gas-constant", { only: tank({ expectedGasConstant: null }), facts: { setPressure: undefined } })).toBeNull();
  });
});

describe("the gas constant against practice", () => {
  test("a drive's: a fifth of a minute of flow at the usual charge; under 0.3 tiny, under 0.8 small", () => {
    const practice = 8 * GAL * absolute(52 - 17.5);
    const at = (ratio: number) => lookAt("gas-constant-by-practice", { outcomes: tank({ gasConstant: about(joule(ratio * practice)) }) });
    expect([0.29, 0.31, 0.79, 0.81].map((r) => at(r)?.level)).toEqual(["tiny", "small", "small", "enough"]);
    expect(at(0.5)?.numbers).toEqual({
      constant: expect.closeTo(practice / 2, 6),
      practice: expect.closeTo(practice, 6),
      ratio: expect.closeTo(0.5, 9),
    });
  });
  test("a switch's: the water between start and stop against a minute", () => {
    const perJoule = 1 / absolute(40) - 1 / absolute(60);
    const at = (minutes: number, facts: object = SWITCHED) =>
      lookAt("gas-constant-by-practice", {
        outcomes: tank({ gasConstant: about(joule((minutes * 40 * GAL) / perJoule)) }),
        facts: { ...facts },
      });
    expect([0.29, 0.31, 0.79, 0.81].map((m) => at(m)?.level)).toEqual(["tiny", "small", "small", "enough"]);
    expect(at(0.5)?.numbers.ratio).toBeCloseTo(0.5, 9);
    expect(at(0.5, { ...SWITCHED, pumpRatedFlow: undefined })).toBeNull();
  });
  test("not without a constant that is known to a factor of three, nor without flow or set pressure", () => {
    const at = (percent: number, facts: object = {}) =>
      levelAt("gas-constant-by-practice", { only: tank({ gasConstant: about(joule(9000), percent) }), facts: { ...facts } });
    expect(at(49)).not.toBeNull();
    expect(at(51)).toBeNull();
    expect(at(5, { pumpRatedFlow: undefined })).toBeNull();
    expect(at(5, { setPressure: undefined })).toBeNull();
    expect(levelAt("gas-constant-by-practice", { only: [] })).toBeNull();
    expect(levelAt("gas-constant-by-practice", { only: tank({ gasConstant: null }) })).toBeNull();
  });
});

describe("where the tank empties", () => {
  const at = (change: Partial<TankChargeFinding>, facts: object = {}) => lookAt("empties-at", { only: tank(change), facts: { ...facts } });
  test("stands as a charge would", () => {
    expect([45, 40, 20].map((p) => at({ emptiesAt: about(psi(p)) })?.level)).toEqual(["near-set", "in-band", "far-below"]);
    expect(at({ emptiesAt: about(psi(20)) })?.numbers).toEqual({ emptiesAt: psi(20), reference: psi(52) });
    expect(at({ emptiesAt: about(psi(20)) }, { setPressure: undefined })).toBeNull();
  });
  test("a bound says only that it lies far below; inside the band it leaves the charge open", () => {
    expect(at({ emptiesBelow: psi(20) })).toEqual({ level: "far-below", numbers: { emptiesAt: psi(20), reference: psi(52) } });
    expect(at({ emptiesBelow: psi(40) })).toBeNull();
    expect(at({ emptiesBelow: psi(50) })).toBeNull();
    expect(at({ emptiesBelow: psi(20) }, { setPressure: undefined })).toBeNull();
  });
  test("not seen, not said", () => {
    expect(at({})).toBeNull();
    expect(levelAt("empties-at", { only: [] })).toBeNull();
  });
});
