import { median } from "../../../analysis/numerics/order-statistics";
import { theilSen } from "../../../analysis/numerics/theil-sen";
import type { DriftWindow } from "../../../shared/findings/finding";
import type { Span } from "../../../shared/findings/span";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import { type Look, nothing } from "./look";

const MOST_POINTS = 600;

/** The window at a place, else the one with the largest change. */
export function windowAt(windows: readonly DriftWindow[], place: Span | null): DriftWindow | null {
  const chosen = windows.find(({ from, to }) => place !== null && from <= place.to && to >= place.from);
  const size = ({ change }: DriftWindow) => Math.abs(change.value);
  return chosen ?? windows.reduce<DriftWindow | null>((a, b) => (a === null || size(b) > size(a) ? b : a), null);
}

/** Pressure over one stretch of steady draw, with the change the analysis measured there and the limit around its beginning. */
export function driftWindow(channel: Channel | null, window: DriftWindow | null, limit: number): Look {
  const points = channel === null || window === null ? [] : blocksOf(channel, window);
  if (window === null || points.length < 5) return nothing("drift-window");
  const length = window.to - window.from;
  const slope = window.change.value / length;
  const begin = median(points.map(({ t, v }) => v - slope * t));
  return {
    ...stretch(
      "drift-window",
      points,
      points.map(({ t }) => begin + slope * t),
      LOOK_WORDS.bestLine,
    ),
    marks: [{ kind: "area", axis: "y", from: begin - limit, to: begin + limit, name: LOOK_WORDS.limit }],
    numbers: {
      change: { value: window.change.value, shown: "pressureDifference" },
      length: { value: length, shown: "time" },
      limit: { value: limit, shown: "pressureDifference" },
    },
  };
}

/**
 * Pressure while nothing was drawn and the pump was off, with the curve of a steady loss: by the gas law 1/p (absolute) rises evenly.
 * @param atmosphere Pa absolute
 */
export function leakFit(channel: Channel | null, place: Span | null, atmosphere: number): Look {
  const points = channel === null || place === null ? [] : blocksOf(channel, place);
  if (place === null || points.length < 5) return nothing("leak-fit");
  const line = theilSen(
    points.map(({ t }) => t),
    points.map(({ v }) => 1 / (v + atmosphere)),
  );
  const curve = points.map(({ t }) => (line === null ? null : 1 / (line.intercept + line.slope * t) - atmosphere));
  const [first, last] = [curve[0] ?? points[0].v, curve[curve.length - 1] ?? points[points.length - 1].v];
  return {
    ...stretch("leak-fit", points, curve, LOOK_WORDS.steadyLoss),
    marks: [],
    numbers: {
      fall: { value: first - last, shown: "pressureDifference" },
      length: { value: place.to - place.from, shown: "time" },
    },
  };
}

type Block = { readonly t: number; readonly v: number };

function stretch(look: "drift-window" | "leak-fit", points: readonly Block[], fit: readonly (number | null)[], name: string) {
  return {
    look,
    state: "shown",
    x: { title: LOOK_WORDS.sinceBegan, shown: "time", low: 0, high: points[points.length - 1].t },
    y: { title: LOOK_WORDS.pressure, shown: "gaugePressure", low: null, high: null },
    lines: [
      { label: LOOK_WORDS.pressureLine, hue: "pressure", dash: [], draw: "line" },
      { label: name, hue: "ink", dash: [6, 3], draw: "line", width: 1.8 },
    ],
    shaded: [],
    xs: Float64Array.from(points, ({ t }) => t),
    ys: [points.map(({ v }) => v), fit],
  } as const;
}

/** A stretch as at most some hundred means of neighbouring samples; missing ones left out. */
function blocksOf({ sampling, values }: Channel, { from, to }: Span): readonly Block[] {
  const first = indexAtOrAfter(sampling, from);
  const end = Math.min(sampleCount(sampling), indexAtOrAfter(sampling, to + 1e-6));
  const size = Math.max(1, Math.ceil((end - first) / MOST_POINTS));
  const blocks: Block[] = [];
  for (let i = first; i < end; i += size) {
    let sum = 0;
    let time = 0;
    let n = 0;
    for (let k = i; k < Math.min(end, i + size); k++) {
      if (values[k] - values[k] !== 0) continue;
      sum += values[k];
      time += timeAt(sampling, k) - from;
      n++;
    }
    if (n > 0) blocks.push({ t: time / n, v: sum / n });
  }
  return blocks;
}
