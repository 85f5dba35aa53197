import { expect, test } from "vitest";
import { drawBlocks, runLength } from "../../../analysis/numerics/block-bootstrap";
import { seededRandom } from "../../../analysis/numerics/random";

test("neighbours are drawn together for a day where the record holds four, else for about the cube root of the count (Künsch 1989, from memory)", () => {
  expect(runLength(168, 3600)).toBe(24);
  expect(runLength(64, 3600)).toBe(4);
});
test("blocks longer than days are drawn one by one: a damaged clock may span millennia", () => {
  expect(runLength(9000, 20e6)).toBe(1);
  expect(drawBlocks(9000, runLength(9000, 20e6), seededRandom(1))).toHaveLength(9000);
});
test("a run goes on from block to block, past the end to the beginning (Politis & Romano 1992, from memory)", () => {
  const drawn = drawBlocks(20, 5, seededRandom(3));
  for (let run = 0; run < 4; run++) for (let j = 1; j < 5; j++) expect(drawn[run * 5 + j]).toBe((drawn[run * 5] + j) % 20);
});
