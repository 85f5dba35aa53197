import { expect, test } from "vitest";
import type { StoredCorrection } from "../../../src/storage/database";
import { readCorrections, withoutPoint } from "../../../src/storage/read-corrections";

const one: StoredCorrection = {
  signature: '["Time","Ch1"]',
  headings: ["Time", "Ch1"],
  answers: { "date-order": "dmy", "range:Ch1": "0..10 bar" },
  columns: [{ heading: "Ch1", role: "pressure", unit: null }],
  saved: 1,
};

test("corrections come back from the file they were saved in", () => {
  expect(readCorrections(JSON.stringify([one], null, 2))).toEqual([one]);
});

test("what is no file of corrections is refused as a whole", () => {
  for (const text of ["", "{", "{}", '[{"signature":"x"}]', JSON.stringify([one, { ...one, answers: { a: 1 } }])])
    expect(readCorrections(text), text).toBeNull();
});

test("one thing of a correction is forgotten, the others stand", () => {
  expect(withoutPoint(one, 0)).toEqual({ ...one, columns: [] });
  expect(withoutPoint(one, 2)?.answers).toEqual({ "date-order": "dmy" });
  expect(withoutPoint({ ...one, answers: {} }, 0)).toBeNull();
});
