import { channelsOf } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { columnExtent } from "../numerics/column-extent";
import { valueStep } from "../numerics/value-step";
import { FAULT_PRESSURE } from "./below-live-zero";
import { habitOf, hardlyRepeats } from "./channel-habit";

const LEAST_STUCK = { samples: 20, seconds: 60 };
const LEAST_PINNED = { samples: 3, total: 10 };
/** Steps of the values by which a cut-off wave stands away from its end on one side at least; one that turns by itself arrives more softly. */
const CUT_OFF = 3;

/**
 * Pressures that stay the same to the last digit: at the highest or lowest reading of the record they are clipped there (a range end), elsewhere stuck.
 * A flow that is not nought and stays the same is stuck.
 * Only channels whose readings hardly ever repeat are judged: coarse steps, or a model without noise, repeat with nothing wrong.
 */
export function findStuckValues(record: LogRecord): LogFault[] {
  return [...stuckPressures(record), ...channelsOf(record, "flow").flatMap(stuckFlow)];
}

function stuckFlow(channel: Channel): LogFault[] {
  if (channel.sampling.kind === "on-change") return [];
  const { values } = channel;
  const habit = habitOf(withoutNought(values));
  if (habit === null || !hardlyRepeats(habit)) return [];
  return runsOfEqual(values, LEAST_STUCK.samples)
    .filter((run) => values[run.first] !== 0 && isLong(channel, run))
    .map((run) => fault("stuck-value", channel, run));
}

function stuckPressures(record: LogRecord): LogFault[] {
  return channelsOf(record, "pressure").flatMap((channel) => {
    if (channel.sampling.kind === "on-change") return [];
    const habit = habitOf(channel.values);
    if (habit === null || !hardlyRepeats(habit)) return [];
    const { low, high } = columnExtent(channel.values);
    const runs = runsOfEqual(channel.values, LEAST_PINNED.samples).filter(({ first }) => channel.values[first] >= FAULT_PRESSURE);
    const pinned = runs.filter(({ first }) => channel.values[first] === low || channel.values[first] === high);
    const pinnedSamples = pinned.reduce((sum, { first, last }) => sum + last - first + 1, 0);
    const sharp = pinned.filter((run) => isSharp(channel.values, run, CUT_OFF * valueStep(channel.values)));
    const clipped = pinnedSamples >= LEAST_PINNED.total && sharp.length > pinned.length / 2 ? pinned : [];
    const stuck = runs.filter((run) => !clipped.includes(run) && isLong(channel, run));
    return [...clipped.map((run) => fault("clipped", channel, run)), ...stuck.map((run) => fault("stuck-value", channel, run))];
  });
}

type EqualRun = { readonly first: number; readonly last: number };

const isSharp = (values: Channel["values"], { first, last }: EqualRun, away: number): boolean =>
  Math.abs(values[first - 1] - values[first]) > away || Math.abs(values[last + 1] - values[last]) > away;

const isLong = ({ sampling }: Channel, { first, last }: EqualRun) =>
  last - first + 1 >= LEAST_STUCK.samples && timeAt(sampling, last) - timeAt(sampling, first) >= LEAST_STUCK.seconds;

function fault(kind: "clipped" | "stuck-value", { heading, sampling }: Channel, { first, last }: EqualRun): LogFault {
  const note: LogFault["note"] = kind === "clipped" ? { kind: "held-at-end" } : { kind: "same-reading", times: last - first + 1 };
  return { kind, channel: heading, from: timeAt(sampling, first), to: timeAt(sampling, last), note };
}

function runsOfEqual(values: ArrayLike<number>, least: number): EqualRun[] {
  const runs: EqualRun[] = [];
  for (let i = 1, first = 0; i <= values.length; i++) {
    if (i < values.length && values[i] === values[i - 1]) continue;
    if (i - first >= least) runs.push({ first, last: i - 1 });
    first = i;
  }
  return runs;
}

/** The values but for those that are nought: what a meter shows while water flows. */
function withoutNought(values: Channel["values"]): Channel["values"] {
  const kept = values.slice();
  let count = 0;
  for (let i = 0; i < values.length; i++) if (values[i] !== 0) kept[count++] = values[i];
  return kept.subarray(0, count);
}
