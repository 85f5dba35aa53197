import { scaleOf } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import type { ChartData, ChartSpec } from "../../charts/chart-spec";
import type { Point } from "../../charts/trace-series";
import type { ModelRun } from "../../worker/model-run";

type Run = Extract<ModelRun, { state: "run" }>;

/** Recorded, modelled and predicted pressure over one time axis, in the reader's unit. */
export function whatIfChart({ answer, recorded }: Run, units: UnitChoice): { readonly spec: ChartSpec; readonly data: ChartData } {
  const scale = scaleOf("gaugePressure", units);
  const { now, after } = answer;
  const { times } = now;
  let seen = 0;
  const ofRecord = Array.from(times, (t): Point => {
    while (seen + 1 < recorded.times.length && recorded.times[seen + 1] <= t + 1e-6) seen++;
    return recorded.times.length === 0 ? null : scale.toShown(recorded.pressure[seen]);
  });
  const shown = (values: Float32Array): Point[] => Array.from(values, (value) => scale.toShown(value));
  const ys = [ofRecord, shown(now.pressure), shown(after.pressure)];
  const { low, high } = rangeOf(ys);
  const line = (label: string, hue: "pressure" | "speed" | "other", dash: readonly number[]) => ({
    label,
    hue,
    dash,
    draw: "line" as const,
  });
  return {
    spec: {
      lines: [line("Recorded", "pressure", []), line("Model as it is", "speed", [2, 3]), line("Model with the change", "other", [8, 4])],
      x: { title: "Minutes from the start of the stretch", low: 0, high: (times[times.length - 1] - times[0]) / 60 || 1 },
      y: { title: `Pressure, ${scale.symbol}`, low, high },
      marks: [],
    },
    data: { x: Float64Array.from(times, (t) => (t - times[0]) / 60), ys },
  };
}

function rangeOf(ys: readonly (readonly Point[])[]): { low: number; high: number } {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const line of ys) {
    for (const value of line) {
      if (typeof value !== "number" || Number.isNaN(value)) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  const margin = (high - low) * 0.05 || 1;
  return low <= high ? { low: low - margin, high: high + margin } : { low: 0, high: 1 };
}
