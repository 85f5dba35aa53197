import type { PumpState, Run } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { valuesWithoutSpikes } from "../faults/observed";
import { median } from "../numerics/order-statistics";
import { noiseOf } from "./pressure-noise";

/** At this part of its usual speed a pump has half of its head (affinity laws) and gives nothing against the pressure it held. */
const TOO_SLOW = Math.SQRT1_2;
/** Above this part of the usual speed it still works: where a dip passes it the pump was let go. */
const LET_GO = 0.85;
const LEAST_STARTS = 3;
const CLEAR = 4; // noise spreads from the held pressure to the starting one
const AROUND = 2; // samples about a start in which the pressure turns
const RAMP = 1.5; // s in which a drive that starts again hardly helps yet. Common practice, no source

/** Speed, pressure and what is usual for both: speed in its own unit, pressures in Pa gauge. */
type Usual = { readonly speed: number; readonly held: number; readonly starting: number };

/**
 * Runs cut where the drive stopped and started again before its speed came down to rest, as small, water-logged or short-slept tanks make it: the speed dips
 * under what holds any pressure and the pressure falls, from where it was held, to where starts lie. A loop does not do that: it slows a pump down where the pressure is high.
 * Runs stay as they are without a pressure, with fewer than three plain starts, or where those do not stand off from the pressure held.
 */
export function cutQuickRestarts(state: PumpState, record: LogRecord, faults: readonly LogFault[]): PumpState {
  const pressure = mainChannel(record, "pressure");
  const witness = record.channels.find(({ heading, role }) => heading === state.channel && role === state.basis);
  if (state.basis !== "speed" || state.mode !== "switching" || pressure === null || witness === undefined) return state;
  const pressures = valuesWithoutSpikes(pressure, faults);
  const speeds = valuesWithoutSpikes(witness, faults);
  const usual = usualOf(state.runs, witness, speeds, pressure, pressures);
  if (usual === null) return state;
  const borders = {
    begins: new Set<number>(state.observed.map(({ from }) => from)),
    ends: new Set<number>(state.observed.map(({ to }) => to)),
  };
  return { ...state, runs: state.runs.flatMap((run) => cutRun(run, witness, speeds, pressure, pressures, usual, borders)) };
}

/** Where the observed stretches begin and end: a run that touches one was not seen whole. */
type Borders = { readonly begins: ReadonlySet<number>; readonly ends: ReadonlySet<number> };

function usualOf(
  runs: readonly Run[],
  witness: Channel,
  speeds: ArrayLike<number>,
  pressure: Channel,
  pressures: ArrayLike<number>,
): Usual | null {
  const begins = runs.filter((run) => run.complete).map((run) => lowestAbout(pressure, pressures, run.from));
  const known = begins.filter((value) => Number.isFinite(value));
  if (known.length < LEAST_STARTS) return null;
  const middles = runs.flatMap(({ from, to }) => [0.25, 0.5, 0.75].map((share) => from + share * (to - from)));
  const held = median(middles.flatMap((t) => finite(pressures[indexAtOrAfter(pressure.sampling, t)])));
  const speed = median(middles.flatMap((t) => finite(speeds[indexAtOrAfter(witness.sampling, t)])));
  const starting = median(known);
  return held - starting > CLEAR * noiseOf(pressures) && speed > 0 ? { speed, held, starting } : null;
}

const finite = (value: number | undefined): number[] => (value !== undefined && Number.isFinite(value) ? [value] : []);

function cutRun(
  run: Run,
  { sampling }: Channel,
  speeds: ArrayLike<number>,
  pressure: Channel,
  pressures: ArrayLike<number>,
  usual: Usual,
  { begins, ends }: Borders,
): Run[] {
  const parts: Run[] = [];
  const startSeen = !begins.has(run.from);
  let from: Seconds = run.from;
  let last = Number.NaN; // the last sample at a working speed, its instant, and the lowest speed since
  let lastAt = 0;
  let lowest = -1;
  for (let i = indexAtOrAfter(sampling, run.from); i < speeds.length && timeAt(sampling, i) <= run.to; i++) {
    const speed = speeds[i];
    if (Number.isNaN(speed)) continue;
    if (speed < LET_GO * usual.speed) {
      if (lowest < 0 || speed < speeds[lowest]) lowest = i;
      continue;
    }
    if (lowest >= 0 && !Number.isNaN(last) && speeds[lowest] < TOO_SLOW * usual.speed) {
      const turn = timeAt(sampling, lowest);
      const middle = (usual.held + usual.starting) / 2;
      const fell = lowestIn(pressure, pressures, turn, turn + RAMP) < middle;
      if (fell && lowestIn(pressure, pressures, timeAt(sampling, lastAt) - RAMP, timeAt(sampling, lastAt)) > middle) {
        const next = lastAt + 1;
        const share = (last - LET_GO * usual.speed) / (last - speeds[next]);
        const before = timeAt(sampling, lastAt);
        const to = seconds(before + (share > 0 && share < 1 ? share : 1) * (timeAt(sampling, next) - before));
        parts.push({ from, to, complete: parts.length > 0 || startSeen });
        from = turn;
      }
    }
    last = speed;
    lastAt = i;
    lowest = -1;
  }
  const endSeen = run.complete || !ends.has(run.to);
  return [...parts, { from, to: run.to, complete: parts.length > 0 ? endSeen : run.complete }].filter((part) => part.to > part.from);
}

/** Lowest pressure between two instants, Pa gauge, and of the sample at or after the first where none lies between; NaN where there is none. */
function lowestIn({ sampling }: Channel, values: ArrayLike<number>, from: number, to: number): number {
  let lowest = Number.NaN;
  const first = indexAtOrAfter(sampling, from);
  for (let i = first; i < values.length && (i === first || timeAt(sampling, i) <= to); i++)
    if (!(values[i] >= lowest) && !Number.isNaN(values[i])) lowest = values[i];
  return lowest;
}

/** Lowest pressure of the samples about an instant, Pa gauge; NaN outside the channel. */
function lowestAbout({ sampling }: Channel, values: ArrayLike<number>, t: number): number {
  const at = indexAtOrAfter(sampling, t);
  let lowest = Number.NaN;
  for (let i = Math.max(0, at - AROUND); i <= Math.min(values.length - 1, at + AROUND); i++)
    if (!(values[i] >= lowest) && !Number.isNaN(values[i])) lowest = values[i];
  return lowest;
}
