import { expect, test } from "vitest";
import { picturePath } from "../../../../src/views/bring-in/picture";

test("a picture runs from lowest to highest over the box, and a missing value breaks the line", () => {
  expect(picturePath([0, 10, null, 5], 30, 10)).toBe("M0.0 10.0L10.0 0.0M30.0 5.0");
});
test("a column that never changes is a line in the middle", () => {
  expect(picturePath([4, 4, 4], 20, 10)).toBe("M0.0 5.0L10.0 5.0L20.0 5.0");
});
test("text, or one value alone, has no picture", () => {
  expect(picturePath([null, null], 20, 10)).toBeNull();
  expect(picturePath([null, 3], 20, 10)).toBeNull();
});
