import { median } from "../../../analysis/numerics/order-statistics";
import type { Run } from "../../../shared/findings/segment";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import { type Look, type LookMark, nothing } from "./look";

const HOUR = 3600;
const DAY = 24 * HOUR;
/** Round lengths of time for a logarithmic axis, s. */
const TIME_TICKS = [0.1, 0.3, 1, 3, 10, 30, 60, 180, 600, 1800, HOUR, 3 * HOUR, 12 * HOUR, DAY, 3 * DAY, 10 * DAY, 30 * DAY];
/** Bars per tenfold length. */
const PER_DECADE = 12;

/** Lengths of whole runs, counted in bars of equal ratio, with the limit for short cycles. */
export function runLengths(runs: readonly Run[], limit: number): Look {
  const lengths = runs.filter(({ complete }) => complete).map(({ from, to }) => to - from);
  const counted = histogram("run-lengths", LOOK_WORDS.runLength, lengths, [
    { kind: "line", axis: "x", at: limit, name: LOOK_WORDS.limit, dash: [6, 3] },
  ]);
  if (counted.state !== "shown") return counted;
  const under = { value: lengths.filter((length) => length < limit).length, shown: "count" } as const;
  return { ...counted, numbers: { ...counted.numbers, under, limit: { value: limit, shown: "time" } } };
}

/** Lengths of the rests between two runs that both lie whole in one unbroken stretch. */
export function restLengths(runs: readonly Run[]): Look {
  const lengths = runs.slice(1).flatMap((run, i) => (run.complete && runs[i].complete ? [run.from - runs[i].to] : []));
  return histogram("rest-lengths", LOOK_WORDS.restLength, lengths, []);
}

function histogram(look: "run-lengths" | "rest-lengths", title: string, all: readonly number[], marks: readonly LookMark[]): Look {
  const lengths = all.filter((length) => length > 0);
  if (lengths.length < 3) return nothing(look);
  const logs = lengths.map((length) => Math.log10(length) * PER_DECADE);
  const marked = marks.flatMap((mark) => (mark.kind === "line" && mark.at > 0 ? [Math.log10(mark.at) * PER_DECADE] : []));
  const first = Math.floor([...logs, ...marked].reduce((a, b) => Math.min(a, b))) - 1;
  const last = Math.floor([...logs, ...marked].reduce((a, b) => Math.max(a, b))) + 1;
  const counts = new Array<number>(last - first + 1).fill(0);
  for (const log of logs) counts[Math.floor(log) - first]++;
  const at = (k: number) => 10 ** ((first + k) / PER_DECADE);
  return {
    look,
    state: "shown",
    x: { title, shown: "time", low: at(0), high: at(counts.length), ticks: TIME_TICKS },
    y: { title: look === "run-lengths" ? LOOK_WORDS.runs : LOOK_WORDS.rests, shown: "count", low: 0, high: null },
    lines: [{ label: look === "run-lengths" ? LOOK_WORDS.runsLine : LOOK_WORDS.restsLine, hue: "speed", dash: [], draw: "bars" }],
    shaded: [],
    marks,
    xs: Float64Array.from(counts, (_, k) => at(k + 0.5)),
    ys: [counts],
    numbers: { count: { value: lengths.length, shown: "count" }, median: { value: median(lengths), shown: "time" } },
  };
}
