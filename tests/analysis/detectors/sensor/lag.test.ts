import { describe, expect, test } from "vitest";
import { lagBehindFlow } from "../../../../analysis/detectors/sensor/lag";
import type { DrawState, PumpState, Segments } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { evenSampling, evidenceOf, recordOf } from "../../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../../builders/signals";

const ATMOSPHERE = 101_325;
const REST = 600; // s from one start of the pump to the next; it runs for the first 60 s

type Drawn = {
  readonly lag: number;
  readonly from?: number;
  readonly lasts?: number;
  readonly also?: readonly [number, number] | null;
  readonly rests?: number;
  /** Rise of 1/p a second, 1/(Pa s). */
  readonly rise?: number;
  readonly segments?: Partial<Segments>;
  /** s between readings. */
  readonly step?: number;
};

/**
 * Twelve rests. In each a draw begins at `from` s and takes the same flow all along: 1/p of absolute pressure rises in a straight line from there
 * (Boyle), here later by the lag that is to be found.
 */
function lagOf({ lag, from = 300, lasts = 100, also = null, rests = 12, rise = 4e-9, segments = {}, step = 1 }: Drawn) {
  const count = rests * REST;
  const noise = noiseOf(count, seededRandom(4));
  const drawnFor = (t: number, late: number) =>
    [[from, from + lasts] as const, ...(also === null ? [] : [also])].reduce(
      (sum, [a, b]) => sum + Math.min(Math.max(t - late - a, 0), b - a),
      0,
    );
  const pressure = Float64Array.from({ length: count }, (_, i) => 1 / (1 / 450_000 + rise * drawnFor(i % REST, lag)) - ATMOSPHERE + 100 * noise[i]); // biome-ignore format: one law
  const draws = Array.from({ length: rests }, (_, k) =>
    [...(also !== null && also[0] < from ? [also] : []), [from, from + lasts] as const].map(([a, b]) => ({
      from: seconds(k * REST + a),
      to: seconds(k * REST + b),
      complete: true,
      volume: null,
      peakFlow: null,
    })),
  ).flat();
  const every = (values: Float64Array) => values.filter((_, i) => i % step === 0);
  const record = recordOf({ pressure: every(pressure), flow: every(new Float64Array(count)) }, evenSampling(Math.ceil(count / step), step));
  const pump: PumpState = {
    basis: "running",
    channel: "running",
    mode: "switching",
    runs: Array.from({ length: rests }, (_, k) => ({ from: seconds(k * REST), to: seconds(k * REST + 60), complete: k > 0 })),
    observed: [{ from: seconds(0), to: record.duration }],
    separation: null,
    certainty: 1,
    pumps: [],
  };
  const draw: DrawState = { basis: "flow", draws, idle: [] };
  return lagBehindFlow(evidenceOf(record, { pump, draw, ...segments }), record.channels[0]);
}

describe("how far the pressure bends behind the flow's start", () => {
  test.each([0, 3, 7])("is read off exactly where straight lines of 1/p meet: %d s", (lag) => {
    const found = lagOf({ lag })!;
    expect(Math.abs(found.value - lag)).toBeLessThan(0.3);
    expect(found.low).toBeGreaterThanOrEqual(0);
    expect(found.low).toBeLessThanOrEqual(found.value);
    expect(found.high).toBeGreaterThanOrEqual(found.value);
  });
  test("a pressure that bends before the flow is told has no lag, not less than none", () => {
    expect(lagOf({ lag: -3 })).toMatchObject({ value: 0, low: 0 });
  });
  test("a draw of ten samples is too short to read; one of fifteen is not", () => {
    expect(lagOf({ lag: 1, lasts: 10 })).toBeNull();
    expect(lagOf({ lag: 1, lasts: 15 })).not.toBeNull();
  });
  test("a draw within twenty samples after another is not asked", () => {
    expect(lagOf({ lag: 3, from: 300, also: [282, 287] })).toBeNull();
    expect(lagOf({ lag: 3, from: 300, also: [262, 267] })).not.toBeNull();
  });
  test("five draws are enough, four are not: the last rest has no start at its end", () => {
    expect(lagOf({ lag: 3, rests: 6 })).not.toBeNull();
    expect(lagOf({ lag: 3, rests: 5 })).toBeNull();
  });
  test("a draw so small that the pressure falls by less than six times its noise is not asked", () => {
    // Forty seconds at p^2 * rise a second: 450 kPa absolute and 100 Pa of noise.
    const fallBy = (pascal: number) => lagOf({ lag: 0, rise: pascal / 39 / 450_000 ** 2 });
    expect(fallBy(900)).not.toBeNull();
    expect(fallBy(250)).toBeNull();
  });
  test("a draw in the last seconds before the pump starts shows too little of its fall", () => {
    expect(lagOf({ lag: 0, from: REST - 9, lasts: 40 })).toBeNull();
    expect(lagOf({ lag: 0, from: REST - 30, lasts: 60 })).not.toBeNull();
  });
  test("samples count and not seconds: with one every two seconds a draw of twenty is too short, of thirty not", () => {
    expect(lagOf({ lag: 2, lasts: 20, step: 2 })).toBeNull();
    expect(Math.abs(lagOf({ lag: 2, lasts: 80, step: 2 })!.value - 2)).toBeLessThan(0.5);
    expect(lagOf({ lag: 2, lasts: 30, step: 2 })).not.toBeNull();
  });
  test("not known where pump or draws are not, nor from draws that the pressure itself shows", () => {
    const unknown = { id: "no-pump-state", about: "starts", detail: {} } as const;
    expect(lagOf({ lag: 3, segments: { pump: unknown } })).toBeNull();
    expect(lagOf({ lag: 3, segments: { draw: unknown } })).toBeNull();
    expect(lagOf({ lag: 3, segments: { draw: { basis: "pressure", draws: [], idle: [] } } })).toBeNull();
  });
  test("nor one within ten samples after the pump stopped, nor while it runs", () => {
    expect(lagOf({ lag: 3, from: 69 })).toBeNull();
    expect(lagOf({ lag: 3, from: 20 })).toBeNull();
    expect(lagOf({ lag: 3, from: 101 })).not.toBeNull();
  });
});
