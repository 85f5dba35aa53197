import { expect, test } from "vitest";
import type { CauseId } from "../../../shared/findings/cause";
import { type Judged, scoreOf } from "./cause-score";
import { wilson } from "./reliability-svg";

const judged = (truth: CauseId, ...said: readonly (readonly [CauseId, number])[]): Judged => ({
  truth,
  said: said.map(([id, confidence]) => ({ id, confidence })),
});

test("shares, Brier score and reliability of four judgements, worked by hand", () => {
  const score = scoreOf([
    judged("healthy", ["healthy", 0.8], ["precharge-low", 0.2]),
    judged("healthy", ["precharge-low", 0.8], ["healthy", 0.2]),
    judged("precharge-low", ["precharge-low", 0.8], ["healthy", 0.2]),
    judged("precharge-low", ["healthy", 0.5], ["loop-too-slow", 0.3], ["tank-too-small", 0.15], ["precharge-low", 0.05]),
  ]);
  expect(score).toMatchObject({ cases: 4, first: 0.5, amongThree: 0.75, soundBlamed: 0.5 });
  // (0.04 + 0.04) + (0.64 + 0.64) + (0.04 + 0.04) + (0.25 + 0.09 + 0.0225 + 0.9025) over 4
  expect(score.brier).toBeCloseTo((0.08 + 1.28 + 0.08 + 1.265) / 4, 12);
  const atEighty = score.reliability.find((bin) => bin.low === 0.75);
  expect(atEighty).toMatchObject({ claims: 3 });
  expect(atEighty?.held).toBeCloseTo(2 / 3, 12);
});

// Wilson 1927; 81 of 263 as worked by Newcombe, Statistics in Medicine 17 (1998) p. 861, method 3: 0.2553 to 0.3662.
test("the interval of a share", () => {
  const { low, high } = wilson(81 / 263, 263);
  expect(low).toBeCloseTo(0.2553, 4);
  expect(high).toBeCloseTo(0.3662, 4);
});
