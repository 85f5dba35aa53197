import type { DrawState, PumpState } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { seconds } from "../../shared/units/quantity";
import { restsOf } from "./starts";

/** After a stop the gas of the tank cools, after a draw it warms: for so long pressure moves without any water. Common practice, no source */
const SETTLE = 30;
const LEAST = 60;

/** Stretches with the pump at rest and nothing drawn, less the settling at their begin, at least a minute long. */
export function idleRests(pump: PumpState, draw: DrawState, edge: number): Span[] {
  const rests = pump.mode === "always-stopped" ? pump.observed : restsOf(pump);
  const idle = overlaps(rests, draw.idle);
  return idle.flatMap(({ from, to }) => {
    const span = { from: seconds(from + Math.max(SETTLE, edge)), to: seconds(to - edge) };
    return span.to - span.from >= LEAST ? [span] : [];
  });
}

const STOPPED = 5; // s until pump, check valve and pipe are still
const LEAST_FALL = 10;

/**
 * Whole rests in which nothing was drawn and the pressure yet fell until the pump had to start, at least some ten seconds long: a loss so large that it leaves no
 * quiet minute. What cooling gas does dies away and brings no start on.
 */
export function fallsToStart(pump: PumpState, draw: DrawState, edge: number): Span[] {
  if (pump.mode !== "switching") return [];
  const starts = new Set(pump.runs.map(({ from }) => from));
  return overlaps(restsOf(pump), draw.idle).flatMap(({ from, to }) => {
    const span = { from: seconds(from + Math.max(STOPPED, edge)), to: seconds(to - edge) };
    return starts.has(to) && span.to - span.from >= LEAST_FALL ? [span] : [];
  });
}

/** Common parts of two lists of spans, each in order of time. O(n + m) */
export function overlaps(a: readonly Span[], b: readonly Span[]): Span[] {
  const common: Span[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const from = Math.max(a[i].from, b[j].from);
    const to = Math.min(a[i].to, b[j].to);
    if (to > from) common.push({ from: seconds(from), to: seconds(to) });
    if (a[i].to < b[j].to) i++;
    else j++;
  }
  return common;
}
