import { expect, test } from "vitest";
import { inNineFigures } from "../../../analysis/document/nine-figures";

test("numbers one engine's last place apart are written alike", () => {
  // As two engines gave them for one log.
  expect(inNineFigures({ a: [27594.41902606737], b: { c: 15.012520811813667 } })).toEqual(
    inNineFigures({ a: [27594.419026067364], b: { c: 15.012520811813769 } }),
  );
});
test("nine figures are kept, of small numbers too", () => {
  expect(inNineFigures([101325.123456, 1.23456789123e-7, -0.1])).toEqual([101325.123, 1.23456789e-7, -0.1]);
});
test("whole numbers, texts, nothing and the order of names stay", () => {
  const plain = { z: 12345678901234, a: [null, true, "1.23456789012"], m: 0 };
  expect(JSON.stringify(inNineFigures(plain))).toBe(JSON.stringify(plain));
});
test("a name of every object is a name like others", () => {
  const hostile = JSON.parse('{"__proto__": {"hit": 0.12345678901}, "constructor": 1}');
  expect(JSON.stringify(inNineFigures(hostile))).toBe('{"__proto__":{"hit":0.123456789},"constructor":1}');
  expect(({} as { hit?: unknown }).hit).toBeUndefined();
});
