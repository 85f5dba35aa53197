import type { PressureProfile } from "../../shared/findings/comparison";
import { formatNumber, formatQuantity, scaleOf } from "../../shared/units/format-quantity";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { niceRange, rounded, tickDecimals } from "./panel-scale";
import { elapsedLabel, tickStep } from "./time-axis";

export const OVERLAY = { width: 720, height: 190, left: 52, right: 8, top: 18, bottom: 34 } as const;

/** Lines and bands of two visits over one another, in the picture's own units; what draws them adds only colour. */
export type OverlayGeometry = {
  readonly unit: string;
  /** Before, then after: the middle as a line, lowest to highest in ten as a band. */
  readonly visits: readonly { readonly line: string; readonly spread: string }[];
  readonly xTicks: readonly { readonly x: number; readonly label: string }[];
  readonly yTicks: readonly { readonly y: number; readonly label: string }[];
};

const HOUR = 3600;

/** @param kind of a day, the time of day stands below; of a cycle, the time since the start */
export function overlayGeometry(pair: readonly PressureProfile[], kind: "day" | "cycle", units: UnitChoice): OverlayGeometry {
  const scale = scaleOf("gaugePressure", units);
  const shown = (values: PressureProfile["low"]) => values.map((value) => (value === null ? null : scale.toShown(value)));
  const visits = pair.map((p) => ({ ...p, low: shown(p.low), middle: shown(p.middle), high: shown(p.high) }));
  const y = niceRange(
    visits.flatMap(({ low }) => low),
    visits.flatMap(({ high }) => high),
  );
  const x = {
    from: visits.reduce((a, v) => Math.min(a, v.fromS), 0),
    to: visits.reduce((a, v) => Math.max(a, v.fromS + v.stepS * v.middle.length), 0),
  };
  const { width, height, left, right, top, bottom } = OVERLAY;
  const toX = (s: number) => rounded(left + ((s - x.from) / (x.to - x.from || 1)) * (width - left - right));
  const toY = (value: number) => rounded(height - bottom - ((value - y.from) / (y.to - y.from)) * (height - top - bottom));
  const step = kind === "day" ? 3 * HOUR : tickStep(x.to - x.from, 7);
  const xs = Array.from({ length: Math.floor((x.to - x.from) / step) + 1 }, (_, i) => Math.ceil(x.from / step) * step + i * step);
  return {
    unit: scale.symbol,
    visits: visits.map((v) => {
      const at = (i: number) => toX(v.fromS + (i + 0.5) * v.stepS);
      return { line: linePath(v.middle, at, toY), spread: spreadPath(v.low, v.high, at, toY) };
    }),
    xTicks: xs
      .filter((s) => s <= x.to)
      .map((s) => ({ x: toX(s), label: kind === "day" ? elapsedLabel(s % 86400, 60, units.locale) : formatQuantity(s, "time", units, 2) })),
    yTicks: Array.from({ length: Math.round((y.to - y.from) / y.step) + 1 }, (_, i) => {
      const value = y.from + i * y.step;
      return { y: toY(value), label: formatNumber(value, tickDecimals(y.step), units.locale) };
    }),
  };
}

type Values = readonly (number | null)[];

function linePath(values: Values, at: (i: number) => number, toY: (value: number) => number): string {
  let path = "";
  values.forEach((value, i) => {
    if (value !== null) path += `${i > 0 && values[i - 1] !== null ? "L" : "M"}${at(i)} ${toY(value)}`;
  });
  return path;
}

/** One closed shape a stretch without holes. */
function spreadPath(low: Values, high: Values, at: (i: number) => number, toY: (value: number) => number): string {
  let path = "";
  for (let from = 0; from < low.length; from++) {
    if (low[from] === null) continue;
    let to = from;
    while (to + 1 < low.length && low[to + 1] !== null) to++;
    const up = Array.from({ length: to - from + 1 }, (_, k) => `${at(from + k)} ${toY(high[from + k] ?? 0)}`);
    const back = Array.from({ length: to - from + 1 }, (_, k) => `${at(to - k)} ${toY(low[to - k] ?? 0)}`);
    path += `M${[...up, ...back].join("L")}Z`;
    from = to;
  }
  return path;
}
