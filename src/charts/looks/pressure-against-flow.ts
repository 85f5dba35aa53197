import { median } from "../../../analysis/numerics/order-statistics";
import type { Run } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import { sampleCount, timeAt } from "../../../shared/record/sampling";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import type { LookNumbers } from "../../../shared/wording/closer-look";
import { valueBefore } from "./cycle-overlay";
import { type Look, nothing } from "./look";

const MOST_POINTS = 4000;
/** The line speaks for the flows that were usual, not for a few far ones that it passes by. */
const USUAL_SHARE = 0.95;

/**
 * Pressure against flow at instants spread evenly over the running pump, with the droop the analysis found through their middle.
 * @param droop Pa per m3/s, negative where pressure falls with flow; null where it is not known
 */
export function pressureAgainstFlow(pressure: Channel | null, flow: Channel | null, runs: readonly Run[], droop: number | null): Look {
  if (pressure === null || flow === null) return nothing("pressure-against-flow");
  const points = evenlyChosen(pressure, runs)
    .map((i) => ({ p: pressure.values[i], q: valueBefore(flow, timeAt(pressure.sampling, i)) }))
    .filter(({ p, q }) => p - p === 0 && q - q === 0)
    .sort((a, b) => a.q - b.q);
  if (points.length < 10) return nothing("pressure-against-flow");
  const most = points[Math.floor(USUAL_SHARE * (points.length - 1))].q;
  const [middleP, middleQ] = [median(points.map(({ p }) => p)), median(points.map(({ q }) => q))];
  const line = (q: number) => (droop === null || q > most ? null : middleP + droop * (q - middleQ));
  return {
    look: "pressure-against-flow",
    state: "shown",
    x: { title: LOOK_WORDS.flow, shown: "flow", low: 0, high: null },
    y: { title: LOOK_WORDS.pressure, shown: "gaugePressure", low: null, high: null },
    lines: [
      { label: LOOK_WORDS.running, hue: "pressure", dash: [], draw: "points" },
      { label: LOOK_WORDS.droop, hue: "ink", dash: [6, 3], draw: "line", width: 1.8 },
    ],
    shaded: [],
    marks: [],
    xs: Float64Array.from(points, ({ q }) => q),
    ys: [points.map(({ p }) => p), points.map(({ q }) => line(q))],
    numbers: {
      points: { value: points.length, shown: "count" },
      flow: { value: most, shown: "flow" },
      ...changeOver(droop, most),
    },
  };
}

/** How far pressure falls, or rises, over the flows seen. */
function changeOver(droop: number | null, most: number): LookNumbers {
  if (droop === null) return {};
  const change = { value: Math.abs(droop * most), shown: "pressureDifference" } as const;
  return droop <= 0 ? { falls: change } : { rises: change };
}

/** Indexes of samples within the runs, at even distances over all of them together. */
function evenlyChosen({ sampling }: Channel, runs: readonly Run[]): number[] {
  const n = sampleCount(sampling);
  const total = runs.reduce((sum, { from, to }) => sum + (to - from), 0);
  const interval = n > 1 ? (timeAt(sampling, n - 1) - timeAt(sampling, 0)) / (n - 1) : 1;
  const stride = Math.max(1, Math.ceil(total / interval / MOST_POINTS));
  const chosen: number[] = [];
  let run = 0;
  for (let i = 0; i < n; i += stride) {
    const t = timeAt(sampling, i);
    while (run < runs.length && runs[run].to < t) run++;
    if (run < runs.length && runs[run].from <= t) chosen.push(i);
  }
  return chosen;
}
