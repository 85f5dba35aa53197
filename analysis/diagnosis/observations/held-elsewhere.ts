import type { PumpState } from "../../../shared/findings/segment";
import type { Span } from "../../../shared/findings/span";
import { type Seconds, seconds } from "../../../shared/units/quantity";
import { sampleAt, type Trace } from "../../model/fit/trace";
import { median, quantile } from "../../numerics/order-statistics";
import { remembered } from "../../numerics/remember";
import { traceIn } from "./at-work";
import { found, isFixedSpeed, pumpOf, type Sight, setPressureOf } from "./sight";
import { standsAlone } from "./stands-alone";

/** A run is looked at in pieces: s of each, and s at its start that belong to the start. */
const PIECE = 120;
const STARTING = 15;
/** Where a lower pressure may be held on purpose: shares of the set pressure. Under it water or prime is missing. */
const LOWER = { from: 0.6, to: 0.94 };
/** What lies within this share of the set pressure to either side is one level. */
const LEVEL = 0.015;
/** So long at least it is held, s, and in so many pieces. */
const LEAST = { seconds: 3600, pieces: 8 };
/** Pieces to either side with which a piece is judged: a draw that begins in it pulls it aside. */
const BESIDE = 2;
/** A drive goes to sleep at the pressure that is asked of it; so many times is no chance. */
const LEAST_STOPS = 3;
/**
 * A pump at its end goes along its curve, H = a - b q^2: over half of the highest flow the pressure falls by a quarter at least of what it falls from none to the
 * highest. What stays level over such a range is controlled.
 */
const FLOW_RANGE = 0.5;

type Piece = Span & { readonly level: number; readonly stops: boolean };

function valuesBetween(trace: Trace, values: ArrayLike<number>, from: number, to: number): number[] {
  const seen: number[] = [];
  for (let i = sampleAt(trace, from); i < trace.times.length && trace.times[i] <= to; i++)
    if (!Number.isNaN(values[i])) seen.push(values[i]);
  return seen;
}

function piecesOf(trace: Trace, runs: PumpState["runs"]): Piece[] {
  return runs.flatMap((run) => {
    const begin = run.from + Math.min(STARTING, (run.to - run.from) / 2);
    const count = Math.max(1, Math.floor((run.to - begin) / PIECE));
    const length = (run.to - begin) / count;
    return Array.from({ length: count }, (_, k) => {
      const [from, to] = [seconds(begin + k * length), seconds(begin + (k + 1) * length)];
      return {
        from,
        to,
        level: median(Float64Array.from(valuesBetween(trace, trace.pressure, from, to))),
        stops: run.complete && k === count - 1,
      };
    });
  });
}

/** Each level replaced by the middle one of its neighbourhood. */
const smoothed = (pieces: readonly Piece[]): number[] =>
  pieces.map((_, i) => median(Float64Array.from(pieces.slice(Math.max(0, i - BESIDE), i + BESIDE + 1), ({ level }) => level)));

/** The level in a range at which most pieces lie; NaN where there is none. */
function commonestLevel(levels: readonly number[], from: number, to: number, width: number): number {
  const lower = Float64Array.from(levels.filter((level) => level > from && level < to)).sort();
  let [most, at] = [0, Number.NaN];
  for (let low = 0, high = 0; high < lower.length; high++) {
    while (lower[high] - lower[low] > width) low++;
    if (high - low + 1 > most) [most, at] = [high - low + 1, (lower[low] + lower[high]) / 2];
  }
  return at;
}

/** Whether something holds the pressure in these pieces: the pump went to sleep there again and again, or the flow changed and the pressure did not. */
function isControlled(sight: Sight, trace: Trace, pieces: readonly Piece[]): boolean {
  const basis = pumpOf(sight)?.basis;
  const witnessed = basis === "running" || basis === "speed" || basis === "current" || basis === "power";
  if (witnessed && pieces.filter(({ stops }) => stops).length >= LEAST_STOPS) return true;
  if (trace.flow === null) return false;
  const { flow } = trace;
  const flows = Float64Array.from(pieces.flatMap(({ from, to }) => valuesBetween(trace, flow, from, to)));
  return quantile(flows, 0.95) - quantile(flows, 0.05) >= FLOW_RANGE * quantile(flow, 0.999);
}

/**
 * When a drive held another pressure than its set pressure: on purpose, as at night, or because the set pressure of the facts is not the one in force or
 * the reading has another scale; and when the reading stood and told of no pressure. There the pressure is short of nothing, and tells nothing of what the pump can give.
 */
export const heldElsewhere = remembered((sight: Sight): readonly Span[] => {
  const byClock = found(sight, "tracking")?.otherSetPressure?.times ?? [];
  return [...byClock, ...standsAlone(sight), ...heldLower(sight)];
});

/** Rows of pieces at a lower level that something held. */
function heldLower(sight: Sight): Span[] {
  const [trace, pump, set] = [traceIn(sight), pumpOf(sight), setPressureOf(sight)];
  if (trace === null || pump === null || set === null || !(set > 0) || isFixedSpeed(sight.site)) return [];
  const pieces = piecesOf(trace, pump.runs);
  const levels = smoothed(pieces);
  const held = commonestLevel(levels, LOWER.from * set, LOWER.to * set, 2 * LEVEL * set);
  const rows = rowsAt(pieces, levels, held, LEVEL * set);
  if (!isControlled(sight, trace, rows.flat())) return [];
  return rows.map((row) => ({ from: restBefore(pump, row[0].from), to: restAfter(pump, row[row.length - 1].to) }));
}

/** Pieces in a row at a level, long enough to be held on purpose. */
function rowsAt(pieces: readonly Piece[], levels: readonly number[], held: number, width: number): (readonly Piece[])[] {
  const rows: (readonly Piece[])[] = [];
  for (let first = 0; first < pieces.length; ) {
    let end = first;
    while (end < pieces.length && Math.abs(levels[end] - held) <= width) end++;
    const row = pieces.slice(first, end);
    if (row.length >= LEAST.pieces && row[row.length - 1].to - row[0].from >= LEAST.seconds) rows.push(row);
    first = Math.max(end, first + 1);
  }
  return rows;
}

/** The rests about a row belong to it: there the pressure falls from, or to, the lower one. */
const restBefore = ({ runs }: PumpState, t: Seconds): Seconds => runs.findLast((run) => run.to < t)?.to ?? t;
const restAfter = ({ runs }: PumpState, t: Seconds): Seconds => runs.find((run) => run.from > t)?.from ?? t;
