import { expect, test } from "vitest";
import { busiest } from "../../../src/report/report-of-record";

test("starts are shown where they are densest, not where a run is longest", () => {
  expect(busiest([0, 4000, 9000, 9100, 9200, 12000], 3600)).toEqual({ from: 9000, to: 12600 });
  expect(busiest([5], 60)).toEqual({ from: 5, to: 65 });
  expect(busiest([], 60)).toBeNull();
});
