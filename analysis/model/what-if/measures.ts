import type { MeasureId } from "../../../shared/findings/what-if";
import { absolutePascal } from "../../../shared/units/pressure";
import { cubicMetre } from "../../../shared/units/quantity";
import { drawdown } from "../../hydraulics/drawdown";
import type { ParameterValues } from "../fit/frame";
import { type SiteTruth, shortRuns } from "../truth";

export type Measures = Readonly<Record<MeasureId, number>>;

/** One number for each measure. */
export const measuresBy = <T>(of: (id: MeasureId) => T): Readonly<Record<MeasureId, T>> => ({
  "starts-per-hour": of("starts-per-hour"),
  "short-cycles-per-hour": of("short-cycles-per-hour"),
  "oscillation-peak-to-peak": of("oscillation-peak-to-peak"),
  "share-oscillating": of("share-oscillating"),
  "drift-at-steady-flow": of("drift-at-steady-flow"),
  "lowest-pressure": of("lowest-pressure"),
  "highest-pressure": of("highest-pressure"),
  "stored-water": of("stored-water"),
});

/** Spread of a measure is taken as a difference (pressures that may be anything) or as a ratio. */
export const SPREAD_AS: Readonly<Record<MeasureId, "ratio" | "difference">> = {
  "starts-per-hour": "ratio",
  "short-cycles-per-hour": "ratio",
  "oscillation-peak-to-peak": "difference",
  "share-oscillating": "difference",
  "drift-at-steady-flow": "difference",
  "lowest-pressure": "difference",
  "highest-pressure": "difference",
  "stored-water": "ratio",
};

const LASTING = 60; // s; a swing that is over sooner is the settling after a change of draw

/**
 * Measures of a simulated span. Drift and oscillation are the worst of the span; 0 where there is none.
 * @param limit below which a run is short, s
 */
export function measuresOf(truth: SiteTruth, duration: number, limit: number, values: ParameterValues, atmosphere: number): Measures {
  const hours = duration / 3600;
  const running = truth.runs.reduce((sum, run) => sum + run.to - run.from, 0);
  const lasting = truth.oscillations.filter((swing) => swing.to - swing.from >= LASTING);
  const swinging = lasting.reduce((sum, swing) => sum + swing.to - swing.from, 0);
  const starts = truth.runs.filter((run) => run.from > 0).length;
  return {
    "starts-per-hour": starts / hours,
    "short-cycles-per-hour": shortRuns(truth, limit) / hours,
    "oscillation-peak-to-peak": lasting.reduce((most, swing) => Math.max(most, swing.peakToPeak), 0),
    "share-oscillating": running > 0 ? Math.min(1, swinging / running) : 0,
    "drift-at-steady-flow": truth.steady.reduce((most, window) => Math.max(most, Math.abs(window.change)), 0),
    "lowest-pressure": truth.lowestPressure,
    "highest-pressure": truth.highestPressure,
    "stored-water": storedWater(values, atmosphere),
  };
}

/** Water the tank gives between stop and restart (Boyle). */
export function storedWater(values: ParameterValues, atmosphere: number): number {
  const volume = values["tank-volume"];
  const low = values["restart-pressure"] + atmosphere;
  if (!(volume > 0 && values["gas-constant"] > 0 && low > 0)) return 0; // no tank to speak of
  const high = Math.max(values["stop-pressure"], values["restart-pressure"]) + atmosphere;
  return drawdown(
    cubicMetre(volume),
    absolutePascal(values["gas-constant"] / volume),
    absolutePascal(high),
    absolutePascal(Math.min(high, low)),
  );
}

/** Several hours as one: rates and shares their mean, the rest the worst. */
export function together(all: readonly Measures[]): Measures {
  const mean = (id: MeasureId) => all.reduce((sum, m) => sum + m[id], 0) / all.length;
  const most = (id: MeasureId) => all.reduce((worst, m) => Math.max(worst, m[id]), Number.NEGATIVE_INFINITY);
  const least = (id: MeasureId) => all.reduce((worst, m) => Math.min(worst, m[id]), Number.POSITIVE_INFINITY);
  return {
    "starts-per-hour": mean("starts-per-hour"),
    "short-cycles-per-hour": mean("short-cycles-per-hour"),
    "oscillation-peak-to-peak": most("oscillation-peak-to-peak"),
    "share-oscillating": mean("share-oscillating"),
    "drift-at-steady-flow": most("drift-at-steady-flow"),
    "lowest-pressure": least("lowest-pressure"),
    "highest-pressure": most("highest-pressure"),
    "stored-water": least("stored-water"),
  };
}
