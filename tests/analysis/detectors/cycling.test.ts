import { describe, expect, test } from "vitest";
import { cycling } from "../../../analysis/detectors/cycling";
import { evidenceOf } from "../../builders/evidence";
import { channel, drawn, every, onChange, recordOf } from "../../builders/record";

const found = (outcome: ReturnType<typeof cycling.detect>) => {
  if (outcome.state !== "found") throw new Error(outcome.state);
  return outcome.finding;
};
const detect = (picture: string, step = 10, facts: Record<string, unknown> = {}) =>
  found(cycling.detect(evidenceOf(recordOf([channel("running", every(step, picture.length), drawn(picture))]), facts)));

describe("starts", () => {
  test("a run under way at the begin has no start, one that is cut at the end has", () => {
    expect(detect("##...###....##").starts).toBe(2);
  });
  test("their rate has the exact Poisson interval", () => {
    // Garwood 1936; 5 events: 1.623 .. 11.668 (scipy chi2 quantiles)
    const rate = detect(`${"..........#####".repeat(5)}......................`, 36).startsPerHour;
    const hours = (96 * 36) / 3600;
    expect(rate?.value).toBeCloseTo(5 / hours, 9);
    expect(rate?.low).toBeCloseTo(1.623 / hours, 2);
    expect(rate?.high).toBeCloseTo(11.668 / hours, 2);
  });
  test("the busiest hour is any hour, not a clock hour", () => {
    const starts = [3500, 3600, 3700, 5000, 7090, 7100, 9000];
    const times = [0, ...starts.flatMap((t) => [t, t + 5])];
    const record = recordOf([
      channel(
        "running",
        onChange(times, 20_000),
        times.map((_, i) => i % 2),
      ),
    ]);
    expect(found(cycling.detect(evidenceOf(record)))).toMatchObject({
      starts: 7,
      peakStartsPerHour: 5,
      peakHour: { from: 3500, to: 7100 },
    });
  });
});

test("medians leave out what is cut", () => {
  expect(detect("######...##....####...###")).toMatchObject({ medianRun: 30, medianRest: 30 });
});

describe("allowed starts", () => {
  test("the site's own limit comes first", () => {
    expect(detect("..##..", 10, { motorPower: "5 hp", limits: { startsPerHour: 10 } })).toMatchObject({
      allowedStartsPerHour: 10,
      allowedStartsFrom: "given",
    });
  });
  test("else the table for two poles started across the line", () => {
    // NEMA MG 10 as reprinted in the EASA handbook: 5 hp, 2 poles: 8.1 starts per hour
    const { allowedStartsPerHour, allowedStartsFrom } = detect("..##..", 10, { motorPower: "5 hp" });
    expect(allowedStartsPerHour).toBeCloseTo(8.1, 2);
    expect(allowedStartsFrom).toBe("across-the-line");
  });
  test("without power nothing is claimed", () => {
    expect(detect("..##..")).toMatchObject({ allowedStartsPerHour: null, allowedStartsFrom: null });
  });
  test("runs of three samples each that pressure alone tells are a least count, and the answer says so", () => {
    const sawTooth = (rise: number, fall: number) =>
      Array.from({ length: 40 * (rise + fall) }, (_, i) => {
        const u = i % (rise + fall);
        return 2.8e5 + 1.2e5 * (u < fall ? 1 - u / fall : (u - fall) / rise);
      });
    const limitsOf = (values: number[]) =>
      cycling.detect(evidenceOf(recordOf([channel("pressure", every(5, values.length), values)]), { pump: "fixed-speed" }));
    expect(limitsOf(sawTooth(3, 9))).toMatchObject({ state: "found", limits: [{ id: "sampling-too-slow", about: "starts" }] });
    expect(limitsOf(sawTooth(8, 24))).toMatchObject({ state: "found", limits: [] });
  });
});
