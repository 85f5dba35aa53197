import { expect, test } from "vitest";
import { secondsLeft } from "../../../src/worker/time-left";

test("the time left follows the pace so far", () => {
  expect(secondsLeft({ at: 0, bytes: 0 }, { at: 2, bytes: 25 }, 100)).toBe(6);
  expect(secondsLeft({ at: 0, bytes: 0 }, { at: 2, bytes: 100 }, 100)).toBe(0);
});
test("nothing is promised before the pace is known", () => {
  expect(secondsLeft({ at: 0, bytes: 0 }, { at: 0.1, bytes: 25 }, 100)).toBeNull();
  expect(secondsLeft({ at: 0, bytes: 0 }, { at: 5, bytes: 0 }, 100)).toBeNull();
});
