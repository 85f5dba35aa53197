import { describe, expect, test } from "vitest";
import { lagBehindFlow } from "../../../../analysis/detectors/sensor/lag";
import type { DrawState, PumpState } from "../../../../shared/findings/segment";
import { seconds } from "../../../../shared/units/quantity";
import { evidenceOf, recordOf } from "../../../builders/known-evidence";
import { noiseOf, seededRandom } from "../../../builders/signals";

const ATMOSPHERE = 101_325;
const REST = 600; // s from one start of the pump to the next; it runs for the first 60 s

type Drawn = { readonly lag: number; readonly from?: number; readonly lasts?: number; readonly also?: readonly [number, number] | null };

/**
 * Twelve rests. In each a draw begins at `from` s and takes the same flow all along: 1/p of absolute pressure rises in a straight line from there
 * (Boyle), here later by the lag that is to be found.
 */
function lagOf({ lag, from = 300, lasts = 100, also = null }: Drawn) {
  const count = 12 * REST;
  const noise = noiseOf(count, seededRandom(4));
  const drawnFor = (t: number, late: number) =>
    [[from, from + lasts] as const, ...(also === null ? [] : [also])].reduce(
      (sum, [a, b]) => sum + Math.min(Math.max(t - late - a, 0), b - a),
      0,
    );
  const pressure = Float64Array.from({ length: count }, (_, i) => 1 / (1 / 450_000 + 4e-9 * drawnFor(i % REST, lag)) - ATMOSPHERE + 100 * noise[i]); // biome-ignore format: one law
  const draws = Array.from({ length: 12 }, (_, k) =>
    [...(also !== null && also[0] < from ? [also] : []), [from, from + lasts] as const].map(([a, b]) => ({
      from: seconds(k * REST + a),
      to: seconds(k * REST + b),
      complete: true,
      volume: null,
      peakFlow: null,
    })),
  ).flat();
  const record = recordOf({ pressure, flow: new Float64Array(count) });
  const pump: PumpState = {
    basis: "running",
    channel: "running",
    mode: "switching",
    runs: Array.from({ length: 12 }, (_, k) => ({ from: seconds(k * REST), to: seconds(k * REST + 60), complete: k > 0 })),
    observed: [{ from: seconds(0), to: record.duration }],
    separation: null,
    certainty: 1,
    pumps: [],
  };
  const draw: DrawState = { basis: "flow", draws, idle: [] };
  return lagBehindFlow(evidenceOf(record, { pump, draw }), record.channels[0]);
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
  test("nor one within ten samples after the pump stopped, nor while it runs", () => {
    expect(lagOf({ lag: 3, from: 69 })).toBeNull();
    expect(lagOf({ lag: 3, from: 20 })).toBeNull();
    expect(lagOf({ lag: 3, from: 101 })).not.toBeNull();
  });
});
