import { expect, test } from "vitest";
import type { StoredCorrection } from "../../../src/storage/database";
import { pointOf, readCorrections, withoutPoint, withPoint } from "../../../src/storage/read-corrections";

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

test("one thing of a correction is put to another value in its place, the others stand", () => {
  expect(pointOf(one, 2)).toEqual({ kind: "answer", id: "range:Ch1", answer: "0..10 bar" });
  expect(pointOf(one, 3)).toBeNull();
  expect(withPoint(one, 0, { kind: "column", column: { heading: "Ch1", role: "flow", unit: "gpm" } })).toEqual({
    ...one,
    columns: [{ heading: "Ch1", role: "flow", unit: "gpm" }],
  });
  const other = withPoint(one, 2, { kind: "answer", id: "range:Ch1", answer: "0..16 bar" });
  expect(Object.entries(other.answers)).toEqual([
    ["date-order", "dmy"],
    ["range:Ch1", "0..16 bar"],
  ]);
});
