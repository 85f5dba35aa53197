import { expect, test } from "vitest";
import { thinTrace } from "../../../analysis/document/thin-trace";
import { seconds } from "../../../shared/units/quantity";
import { at, channel, every, onChange, recordOf } from "../../builders/record";

const span = (from: number, to: number) => ({ from: seconds(from), to: seconds(to) });
const thinned = (record: Parameters<typeof thinTrace>[0], from: number, to: number, columns: number) =>
  thinTrace(record, span(from, to), columns).channels[0];

test("least and greatest of each column, so that no spike is lost", () => {
  const record = recordOf([channel("pressure", every(1, 6), [1, 9, 2, 3, 0, 4])]);
  expect(thinned(record, 0, 6, 2)).toMatchObject({ low: [1, 0], high: [9, 4] });
});
test("a stretch with fewer samples than columns has no empty columns, for those would look like gaps", () => {
  const record = recordOf([
    channel(
      "pressure",
      every(2, 100),
      Array.from({ length: 100 }, (_, i) => i),
    ),
  ]);
  const { low } = thinned(record, 20, 80, 650);
  expect(low).toHaveLength(30);
  expect(low).not.toContain(null);
});
test("a gap stays a gap", () => {
  const record = recordOf([channel("pressure", at([0, 1, 2, 3, 16, 17, 18, 19]), [1, 1, 1, 1, 2, 2, 2, 2])]);
  expect(thinned(record, 0, 20, 5).low).toEqual([1, null, null, null, 2]);
});
test("a value that holds until the next one stands in every column up to it", () => {
  const record = recordOf([channel("running", onChange([0, 35], 60), [1, 0])]);
  expect(thinned(record, 0, 60, 6)).toMatchObject({ low: [1, 1, 1, 0, 0, 0], high: [1, 1, 1, 1, 0, 0] });
  expect(thinned(record, 10, 30, 2)).toMatchObject({ low: [1, 1], high: [1, 1] });
});
