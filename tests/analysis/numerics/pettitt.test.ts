import { describe, expect, test } from "vitest";
import { rankChange } from "../../../analysis/numerics/pettitt";
import { goldenInputs } from "../../builders/reference";

describe("one change by ranks", () => {
  test("the Nile at Aswan falls after 1898, its 28th year, as every change-point method says", () => {
    const change = rankChange(goldenInputs.nile.y, 5);
    expect(change?.at).toBe(28);
    expect(change?.larger).toBeLessThan(0.15);
  });
  test("two parts that do not overlap, whatever the scale", () => {
    expect(rankChange([1, 3, 2, 1e9, 2e9, 7], 1)).toEqual({ at: 3, larger: 1 });
    expect(rankChange([5, 6, 7, 1, 2], 2)).toEqual({ at: 3, larger: 0 });
  });
  test("equal values count half: Mann and Whitney's chance", () => {
    expect(rankChange([4, 4, 4, 4], 2)?.larger).toBe(0.5);
    expect(rankChange([1, 2, 2, 3], 2)).toEqual({ at: 2, larger: 3.5 / 4 });
  });
  test("too few values have no change", () => expect(rankChange([1, 2, 9], 2)).toBeNull());
});
