import type { PumpState, PumpStateBasis, Run } from "../../shared/findings/segment";
import { type Span, spanLength } from "../../shared/findings/span";
import { channelsOf } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { seconds } from "../../shared/units/quantity";
import { stretchesOf, totalTime, valuesWithoutSpikes } from "../faults/observed";
import { sampleInterval } from "../faults/sample-interval";
import { heldInTime } from "./held-in-time";
import { runsOf } from "./switching";
import { type WitnessLevels, witnessLevels } from "./witness-levels";

type Basis = Exclude<PumpStateBasis, "pressure">;

/** How far each witness is to be trusted at best: a flag is the drive's own word, the rest are read from a curve. */
const TRUST: Readonly<Record<Basis, number>> = { running: 0.99, speed: 0.98, current: 0.96, power: 0.96, flow: 0.9 };
/** One level that never rose says less than a switching one: the flag may mean "enabled", the clamp may hang on another wire. */
const ONE_LEVEL_TRUST = 0.8;
/** Two channels whose runs agree over this part of the time are one pump seen twice (three phases, set and actual speed). */
const SAME_PUMP = 0.95;

/** The pump state as channels of one role show it; null where they show none or there are none. Several pumps in turn: runs are their union. */
export function pumpFromWitness(record: LogRecord, faults: readonly LogFault[], basis: Basis): PumpState | null {
  const states = channelsOf(record, basis).flatMap((channel) => stateOf(channel, faults, basis) ?? []);
  const switching = states.filter((state) => state.mode === "switching");
  if (switching.length === 0) return states.find((state) => state.mode === "always-running") ?? states[0] ?? null;
  if (states.some((state) => state.mode === "always-running")) return states.find((state) => state.mode === "always-running") ?? null;
  const pumps = switching.filter((state, i) => !switching.slice(0, i).some((other) => samePump(other, state)));
  return pumps.length === 1 ? pumps[0] : inTurn(pumps);
}

function stateOf(channel: Channel, faults: readonly LogFault[], basis: Basis): PumpState | null {
  const values = valuesWithoutSpikes(channel, faults);
  const observed = stretchesOf(channel, faults);
  const levels = witnessLevels(basis, heldInTime(values, channel.sampling), sampleInterval(channel.sampling)?.median ?? 0);
  const common = { basis, channel: channel.heading, observed, pumps: [] };
  if (levels.kind === "one") return levels.up === null ? null : oneLevel(common, levels.up);
  const runs = runsOf(values, channel.sampling, observed, levels.thresholds);
  return {
    ...common,
    mode: "switching",
    runs,
    separation: Number.isFinite(levels.separation) ? levels.separation : null,
    certainty: certainty(basis, levels),
  };
}

type Common = Pick<PumpState, "basis" | "channel" | "observed" | "pumps">;

function oneLevel(common: Common, up: boolean): PumpState {
  const runs = up ? common.observed.map(({ from, to }): Run => ({ from, to, complete: false })) : [];
  const trust = TRUST[common.basis as Basis] * ONE_LEVEL_TRUST;
  return { ...common, mode: up ? "always-running" : "always-stopped", runs, separation: null, certainty: trust };
}

/** Falls with the overlap of the two heaps: at 4 spreads apart one sample in 44 is on the wrong side of the middle, at 8 one in 30,000. */
function certainty(basis: Basis, { separation }: Extract<WitnessLevels, { kind: "two" }>): number {
  return Number.isFinite(separation) ? TRUST[basis] * (1 - Math.exp(-(separation ** 2) / 8)) : TRUST[basis];
}

function samePump(a: PumpState, b: PumpState): boolean {
  const both = overlap(a.runs, b.runs);
  const either = totalTime(a.runs) + totalTime(b.runs) - both;
  return either > 0 && both / either > SAME_PUMP;
}

/** Time in which both lists of spans hold; both in order of time. */
function overlap(a: readonly Span[], b: readonly Span[]): number {
  let sum = 0;
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    sum += Math.max(0, Math.min(a[i].to, b[j].to) - Math.max(a[i].from, b[j].from));
    if (a[i].to < b[j].to) i++;
    else j++;
  }
  return sum;
}

function inTurn(pumps: readonly PumpState[]): PumpState {
  const first = pumps[0];
  return {
    ...first,
    channel: pumps.map((pump) => pump.channel).join(", "),
    runs: union(pumps.flatMap((pump) => pump.runs)),
    certainty: Math.min(...pumps.map((pump) => pump.certainty)),
    separation: pumps.reduce<number | null>((least, { separation: s }) => (s !== null && (least === null || s < least) ? s : least), null),
    pumps: pumps.map(({ channel, runs }) => ({ channel, runs })),
  };
}

/** Joined runs: complete where both its first start and its last stop were seen. */
function union(runs: readonly Run[]): Run[] {
  const joined: Run[] = [];
  for (const run of [...runs].sort((a, b) => a.from - b.from)) {
    const last = joined.at(-1);
    if (last === undefined || run.from > last.to) joined.push(run);
    else joined[joined.length - 1] = { from: last.from, to: seconds(Math.max(last.to, run.to)), complete: last.complete && run.complete };
  }
  return joined.filter((run) => spanLength(run) > 0);
}
