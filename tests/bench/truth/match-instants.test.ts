import { expect, test } from "vitest";
import { matchInstants } from "./match-instants";

test("each instant pairs once, and only with one close by", () => {
  expect(matchInstants([10, 12, 50, 90], [11, 13, 55, 89], 2)).toEqual({ matched: 3, found: 4, true: 4 });
  expect(matchInstants([10, 11], [10], 2)).toEqual({ matched: 1, found: 2, true: 1 });
  expect(matchInstants([], [5], 2)).toEqual({ matched: 0, found: 0, true: 1 });
});
