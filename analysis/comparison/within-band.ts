import type { Analysis } from "../../shared/findings/analysis";
import { findingOf } from "../../shared/findings/finding";
import { isCannotTell, type PumpState } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import type { Measured } from "../../shared/units/measured";
import { seededRandom } from "../numerics/random";
import { type BlockGrid, blocksOf } from "./block-grid";
import { eachSample } from "./each-sample";
import { estimateRatio, intervalOf, SHARE, sum } from "./estimate";

type Held = Pick<Analysis, "outcomes" | "site">;

/** The band that pressure was held against; null where no set pressure is known. */
export function bandOf({ outcomes, site }: Held): number | null {
  const tracking = findingOf(outcomes, "tracking");
  return tracking === null || tracking.setPressure === null ? null : (tracking.band ?? site.limits.band.value);
}

/** Time that was held against the set pressure and time within the band, a block: while the pump ran, where that is known. */
export function trackedSums(pressure: Channel | null, pump: PumpState | null, analysis: Held, duration: number, grid: BlockGrid) {
  const sums = { tracked: grid.zeros(), withinBand: grid.zeros() };
  const set = findingOf(analysis.outcomes, "tracking")?.setPressure ?? null;
  const band = bandOf(analysis);
  if (pressure === null || set === null || band === null) return sums;
  const running = pump === null || pump.mode === "always-running" ? [{ from: 0, to: duration }] : pump.runs;
  let r = 0;
  eachSample(pressure, (t, value, lasts) => {
    while (r < running.length && running[r].to <= t) r++;
    if (r >= running.length || running[r].from > t) return;
    sums.tracked[grid.blockOf(t)] += lasts;
    if (Math.abs(value - set) <= band) sums.withinBand[grid.blockOf(t)] += lasts;
  });
  return sums;
}

/**
 * Share of running time within the band with its 95 % interval by block bootstrap; null where no set pressure is known. The value is that of the
 * finding, which counts samples; the width is that of the blocks.
 */
export function shareWithinBand(record: LogRecord, analysis: Pick<Analysis, "outcomes" | "site" | "segments">): Measured | null {
  const value = findingOf(analysis.outcomes, "tracking")?.shareWithinBand ?? null;
  if (value === null) return null;
  const { blockS, grid } = blocksOf(record.duration);
  const pump = isCannotTell(analysis.segments.pump) ? null : analysis.segments.pump;
  const { tracked, withinBand } = trackedSums(mainChannel(record, "pressure"), pump, analysis, record.duration, grid);
  if (sum(tracked) === 0) return { value, low: value, high: value };
  const estimate = estimateRatio({ top: withinBand, bottom: tracked, per: 1, counted: false }, blockS, null, seededRandom(1));
  return intervalOf({ ...estimate, value }, SHARE);
}
