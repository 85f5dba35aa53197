import { describe, expect, test } from "vitest";
import { sayCausesInShort, sayLimitsInShort, sayStepsInShort } from "../../../shared/wording/in-short";

const cause = (name: string, confidence: number) => ({ name, confidence, share: `${Math.round(100 * confidence)}\u202f%` });

describe("the story in three lines", () => {
  test("what breaks a limit is named in the order of its weight; without any, that is said", () => {
    expect(sayLimitsInShort(["over-marked-pressure", "short-cycles"], 5, 4)).toBe(
      "Over the limit: pressure above the tank's mark, short cycles.",
    );
    expect(sayLimitsInShort([], 3, 0)).toBe("Nothing over a limit.");
    expect(sayLimitsInShort([], 3, 8)).toBe("Nothing over a limit; 8 things it cannot show.");
    expect(sayLimitsInShort([], 0, 0)).toBe("Nothing that needs a word.");
    expect(sayLimitsInShort([], 3, 8, ["Worst dip when a draw begins"])).toBe(
      "Not met on the acceptance sheet: worst dip when a draw begins.",
    );
  });
  test("a cause less likely than all others together is not called the likeliest alone", () => {
    expect(sayCausesInShort([cause("Precharge too low", 0.6), cause("Tank too small", 0.3)])).toBe(
      "Most likely: precharge too low (60\u202f%).",
    );
    expect(sayCausesInShort([cause("Precharge too low", 0.4), cause("Tank too small", 0.3)])).toBe(
      "Not settled: precharge too low (40\u202f%) or tank too small (30\u202f%).",
    );
    expect(sayCausesInShort([])).toBe("Nothing to weigh yet.");
  });
  test("the first step is named, a second too, more are counted", () => {
    expect(sayStepsInShort(["Read the precharge"])).toBe("Read the precharge.");
    expect(sayStepsInShort(["Read the precharge", "Raise the precharge"])).toBe("Read the precharge; then raise the precharge.");
    expect(sayStepsInShort(["A", "B", "C"])).toBe("A; then 2 more steps.");
    expect(sayStepsInShort([])).toBe("No step yet.");
  });
});
