import { expect, test } from "vitest";
import { findGaps } from "../../../analysis/import/find-sampling";

const times = Float64Array.from([0, 300, 600, 5000, 5300, 5600]);

test("a logger of events that misses its heartbeats is silent, one that samples has a gap", () => {
  const kinds = (rhythm: Parameters<typeof findGaps>[1]) => findGaps(times, rhythm).map(({ kind, from, to }) => [kind, from, to]);
  expect(kinds({ kind: "sampled" })).toEqual([["gap", 600, 5000]]);
  expect(kinds({ kind: "on-change", heartbeat: 300 })).toEqual([["silence", 600, 5000]]);
  expect(kinds({ kind: "on-change", heartbeat: null })).toEqual([]);
});
