import type { PumpState, Run } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import type { SiteFacts } from "../../shared/site/site-facts";
import { type Stretch, stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { finiteValues, median, quantiles } from "../numerics/order-statistics";
import { noiseOf } from "./pressure-noise";
import { type Turn, turningPoints } from "./turning-points";

/** A swing counts where it is this part of the whole range; smaller ones are draws on a holding pump or noise. */
const SWING_SHARE = 0.3;
const LEAST_SWING = 10_000; // Pa; no switch or drive is set closer. Common practice, no source
const LEAST_STARTS = 3;
/** Lows of a saw-tooth lie at the pressure that starts the pump: their quartiles stay within this part of its height. */
const LOWS_WITHIN = 0.25;

/**
 * The pump's runs from the pressure's own saw-tooth: it starts where the fall turns, at much the same pressure each time, and stops where the rise ends.
 * @returns null where no such saw-tooth is seen
 */
export function pumpFromPressure(record: LogRecord, faults: readonly LogFault[], _site: SiteFacts): PumpState | null {
  const channel = mainChannel(record, "pressure");
  if (channel === null) return null;
  const values = valuesWithoutSpikes(channel, faults);
  const observed = stretchesOf(channel, faults);
  const size = swingSize(values);
  if (size === null) return null;
  const turns = observed.map((stretch) => turningPoints(values, stretch.first, stretch.last, size));
  if (!isSawTooth(values, turns.flat())) return null;
  const runs = observed.flatMap((stretch, i) => runsBetween(channel, stretch, turns[i]));
  return { basis: "pressure", channel: channel.heading, mode: "switching", runs, observed, separation: null, certainty: 0.7, pumps: [] };
}

function swingSize(values: ArrayLike<number>): number | null {
  const kept = finiteValues(values);
  if (kept.length < 10) return null;
  const [low, high] = quantiles(kept, [0.01, 0.99]);
  const size = Math.max(SWING_SHARE * (high - low), 8 * noiseOf(kept));
  return size < LEAST_SWING || size > 0.8 * (high - low) ? null : size;
}

function isSawTooth(values: ArrayLike<number>, turns: readonly Turn[]): boolean {
  const lows = turns.filter((turn) => turn.kind === "low").map((turn) => values[turn.index]);
  const highs = turns.filter((turn) => turn.kind === "high").map((turn) => values[turn.index]);
  if (lows.length < LEAST_STARTS || highs.length < LEAST_STARTS) return false;
  const [low, high] = quantiles(lows, [0.25, 0.75]);
  return high - low < LOWS_WITHIN * (median(highs) - median(lows));
}

function runsBetween({ sampling }: Channel, stretch: Stretch, turns: readonly Turn[]): Run[] {
  const at = (turn: Turn | undefined) => (turn === undefined ? null : timeAt(sampling, turn.index));
  const runs: Run[] = [];
  if (turns[0]?.kind === "high") runs.push({ from: stretch.from, to: timeAt(sampling, turns[0].index), complete: false });
  turns.forEach((turn, i) => {
    if (turn.kind === "high") return;
    const to = at(turns[i + 1]);
    runs.push({ from: timeAt(sampling, turn.index), to: to ?? stretch.to, complete: to !== null });
  });
  return runs;
}
