import { quantiles } from "../../../analysis/numerics/order-statistics";
import type { Run } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter, sampleCount, timeAt } from "../../../shared/record/sampling";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import type { Point } from "../trace-series";
import { type Look, nothing } from "./look";

const GRID = 240;
/** More cycles than this are taken at even distances. */
const MOST_CYCLES = 1500;
/** Before the start, so that the fall to it can be seen, as a part of the time shown. */
const BEFORE = 0.15;

/** All cycles laid over one another at the start of the run, with one drawn through: that at `place`, else one of middle length. O(cycles * GRID * log n). */
export function cycleOverlay(channel: Channel | null, runs: readonly Run[], place: Span | null): Look {
  const cycles = runs.slice(0, -1).map((run, i) => ({ from: run.from, runTo: run.to, to: runs[i + 1].from }));
  if (channel === null || cycles.length < 3) return nothing("cycle-overlay");
  const [middleLength, shown] = quantiles(
    cycles.map(({ from, to }) => to - from),
    [0.5, 0.8],
  );
  const length = Math.max(2 * middleLength, Math.min(shown, 6 * middleLength));
  const xs = Float64Array.from({ length: GRID }, (_, k) => length * ((k / (GRID - 1)) * (1 + BEFORE) - BEFORE));
  const stride = Math.ceil(cycles.length / MOST_CYCLES);
  const taken = cycles.filter((_, i) => i % stride === 0);
  const rows = Array.from(xs, (t) => taken.flatMap(({ from, to }) => (from + t <= to ? finite(valueBefore(channel, from + t)) : [])));
  const spread = rows.map((row) => (row.length < Math.max(3, taken.length / 20) ? null : quantiles(row, [0.05, 0.5, 0.95])));
  const chosen = cycles.find(({ from, to }) => place !== null && from <= place.to && to > place.from) ?? null;
  const one = chosen ?? ofLength(cycles, middleLength);
  const own = Array.from(xs, (t): Point => (one.from + t > one.to ? null : (finite(valueBefore(channel, one.from + t))[0] ?? null)));
  const middle = spread.flatMap((s) => (s === null ? [] : [s[1]]));
  if (middle.length === 0) return nothing("cycle-overlay");
  const low = middle.reduce((a, b) => Math.min(a, b));
  const high = middle.reduce((a, b) => Math.max(a, b));
  const quantileLine = (q: number): Point[] => spread.map((s) => s?.[q] ?? null);
  const base = { hue: "pressure", draw: "line" } as const;
  return {
    look: "cycle-overlay",
    state: "shown",
    x: { title: LOOK_WORDS.sinceStart, shown: "time", low: xs[0], high: xs[GRID - 1] },
    y: { title: LOOK_WORDS.pressure, shown: "gaugePressure", low: null, high: null },
    lines: [
      { ...base, label: LOOK_WORDS.lowest, dash: [1, 3], width: 0.8 },
      { ...base, label: LOOK_WORDS.middle, dash: [6, 4], width: 1.6 },
      { ...base, label: LOOK_WORDS.highest, dash: [1, 3], width: 0.8 },
      { ...base, hue: "ink", label: chosen === null ? LOOK_WORDS.oneCycle : LOOK_WORDS.chosenCycle, dash: [], width: 1.4 },
    ],
    shaded: [[0, 2]],
    marks: [{ kind: "line", axis: "x", at: 0, name: LOOK_WORDS.start, dash: [2, 2] }],
    xs,
    ys: [quantileLine(0), quantileLine(1), quantileLine(2), own],
    numbers: {
      cycles: { value: cycles.length, shown: "count" },
      low: { value: low, shown: "gaugePressure" },
      high: { value: high, shown: "gaugePressure" },
    },
  };
}

/** The cycle whose length is nearest to one. */
const ofLength = <C extends Span>(cycles: readonly C[], length: number): C => {
  const away = ({ from, to }: Span) => Math.abs(to - from - length);
  return cycles.reduce((a, b) => (away(b) < away(a) ? b : a));
};

const finite = (value: number): number[] => (value - value === 0 ? [value] : []);

/** The last sample at or before t; NaN before the first. */
export function valueBefore({ sampling, values }: Channel, t: number): number {
  const after = indexAtOrAfter(sampling, t);
  const at = after < sampleCount(sampling) && timeAt(sampling, after) <= t ? after : after - 1;
  return at < 0 ? Number.NaN : values[at];
}
