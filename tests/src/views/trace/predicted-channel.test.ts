import { expect, test } from "vitest";
import { pyramidRange } from "../../../../src/charts/pyramid";
import { predictedChannel, samplesWithin } from "../../../../src/views/trace/predicted-channel";

const predicted = {
  times: Float64Array.from({ length: 100 }, (_, i) => 1000 + 2 * i),
  pressure: Float32Array.from({ length: 100 }, (_, i) => i),
};

test("a prediction is drawn where it lies in the record, with its least and greatest value", () => {
  const channel = predictedChannel(predicted, "predicted");
  expect(channel?.drawn.trace.pyramid.start).toBe(1000);
  expect(pyramidRange(channel?.drawn.trace.pyramid ?? { start: 0, width: 1, levels: [] })).toEqual({ low: 0, high: 99 });
});
test("nothing, or a single sample, is no line", () => {
  expect(predictedChannel(null, "")).toBeNull();
  expect(predictedChannel({ times: Float64Array.of(1), pressure: Float32Array.of(1) }, "")).toBeNull();
});
test("a window takes one sample more on either side, so that the line reaches its edges", () => {
  const { times } = samplesWithin(predicted, 1011, 1015);
  expect([...times]).toEqual([1010, 1012, 1014, 1016]);
});
