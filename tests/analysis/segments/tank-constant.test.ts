import { describe, expect, test } from "vitest";
import { ownConstant } from "../../../analysis/segments/tank-constant";

const GIVE = { value: 1000, low: 1000, high: 1000 };
const SURE = { low: 0, high: 0 };
const one = (time: number, share: number, slope = 1, likely = 1) => ({ time, share, slope, likely });

describe("the tank's own part of what gives", () => {
  test("lies anywhere from the share that shows its heat to all of it, pipes evenly spread in the logarithm from 1 %: by hand", () => {
    const { value, low, high } = ownConstant(GIVE, SURE, [one(40, 0.8)], { most: 0.5, unseen: 0 });
    expect(Math.abs(value / (1000 * (1 - Math.sqrt(0.01 * 0.2))) - 1)).toBeLessThan(0.02);
    expect(Math.abs(low / 805 - 1)).toBeLessThan(0.02); // soft pipes: evenly spread
    expect(high).toBe(1000);
  });
  test("is no less than pipes leave: the walls took the rest of the heat", () => {
    expect(ownConstant(GIVE, SURE, [one(40, 0.25)], { most: 0.1, unseen: 0 }).low).toBeGreaterThan(900);
  });
  test("is all of it where all the heat shows", () => {
    expect(ownConstant(GIVE, SURE, [one(40, 1)], { most: 0.5, unseen: 0 })).toEqual({ value: 1000, low: 1000, high: 1000 });
  });
  test("is all but the little that pipes give unseen where no heat shows", () => {
    expect(ownConstant(GIVE, SURE, [one(0, 1)], { most: 0.5, unseen: 0.04 }).low).toBeGreaterThan(960);
  });
  test("reaches from gas of one temperature to gas that keeps its heat, the ratio of specific heats, where the log shows neither", () => {
    const { low, high } = ownConstant(GIVE, SURE, [one(0, 1, 1, 0.5), one(320, 1, 1 / 1.4, 0.5)], { most: 0.5, unseen: 0 });
    expect([low, high].map(Math.round)).toEqual([1000, 1400]);
  });
  test("reaches as high as the whole: where pipes have no part, all that is not known of the whole is not known of the tank", () => {
    expect(ownConstant({ ...GIVE, high: 1300 }, SURE, [one(40, 0.8)], { most: 0.5, unseen: 0 }).high).toBe(1300);
  });
  test("carries the slope's own reach: 1/K known to 10 % to either side", () => {
    const { low, high } = ownConstant(GIVE, { low: 0.1, high: 0.1 }, [one(40, 1)], { most: 0.5, unseen: 0 });
    expect(low).toBeCloseTo(1000 / 1.1, 6);
    expect(high).toBeCloseTo(1000 / 0.9, 6);
  });
});
