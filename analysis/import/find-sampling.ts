import type { LogFault } from "../../shared/record/log-fault";
import type { Sampling } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import type { Rhythm } from "./find-on-change";

/** Instants may stray so far from the even grid, as a share of the step: rounding of stamps with decimals. */
const EVEN_TOLERANCE = 1e-3;

/** Start and step where the instants stand evenly, else the instants. Times [n], s, strictly rising. */
export function findSampling(times: Float64Array, rhythm: Rhythm | null): Sampling {
  const count = times.length;
  if (rhythm?.kind === "on-change") return { kind: "on-change", times, until: seconds(times[count - 1] ?? 0) };
  if (count < 2) return { kind: "listed", times };
  const start = times[0];
  const step = (times[count - 1] - start) / (count - 1);
  const tolerance = step * EVEN_TOLERANCE;
  for (let i = 1; i < count; i++) if (Math.abs(times[i] - (start + i * step)) > tolerance) return { kind: "listed", times };
  return { kind: "even", start: seconds(start), step: seconds(roundedStep(step, count)), count };
}

/** Rounding the step may move the last instant so far, s: a record must not end after its own end. */
const MOST_MOVED = 1e-3;

/** 0.9999999999 s is 1 s written with rounding. */
function roundedStep(step: number, count: number): number {
  const rounded = Number(step.toPrecision(9));
  return Math.abs(rounded - step) * (count - 1) <= MOST_MOVED ? rounded : step;
}

/** How far an instant of a sampling may lie from the one that was written, s. */
export const mostStray = (sampling: Sampling): number => (sampling.kind === "even" ? sampling.step * EVEN_TOLERANCE + MOST_MOVED : 0);

/** A silence of so many median intervals is a gap; a single lost row is not. */
const GAP_INTERVALS = 3.5;

/** Missed beats after which a logger with a heartbeat was not there. */
const GAP_BEATS = 4;

/**
 * Silences far longer than the usual interval of a logger that samples: gaps. One that writes at events is silent by its nature; where it misses several
 * heartbeats, nobody can say whether nothing happened or it was off: a silence, through which no value is held. Times [n], s.
 */
export function findGaps(times: Float64Array, rhythm: Rhythm): LogFault[] {
  if (times.length < 3 || (rhythm.kind === "on-change" && rhythm.heartbeat === null)) return [];
  const usual = rhythm.kind === "on-change" ? (rhythm.heartbeat ?? 0) : medianInterval(times);
  const limit = usual * (rhythm.kind === "on-change" ? GAP_BEATS : GAP_INTERVALS);
  const gaps: LogFault[] = [];
  for (let i = 1; i < times.length; i++) {
    const silence = times[i] - times[i - 1];
    if (silence > limit) {
      gaps.push({
        kind: rhythm.kind === "on-change" ? "silence" : "gap",
        channel: null,
        from: seconds(times[i - 1]),
        to: seconds(times[i]),
        note: { kind: "no-rows", silence: Number(silence.toPrecision(6)), usual: Number(usual.toPrecision(4)) },
      });
    }
  }
  return gaps;
}

/** Median interval, s, over all intervals or an even choice of some thousands. */
export function medianInterval(times: Float64Array): number {
  const stride = Math.max(1, Math.floor((times.length - 1) / 20_000));
  const intervals = new Float64Array(Math.floor((times.length - 1) / stride));
  for (let i = 0; i < intervals.length; i++) intervals[i] = times[i * stride + 1] - times[i * stride];
  intervals.sort();
  return intervals[intervals.length >> 1];
}
