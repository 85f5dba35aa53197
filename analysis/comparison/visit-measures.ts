import type { Analysis } from "../../shared/findings/analysis";
import type { VisitMeasures } from "../../shared/findings/comparison";
import { findingOf } from "../../shared/findings/finding";
import { isCannotTell, type PumpState } from "../../shared/findings/segment";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { median } from "../numerics/order-statistics";
import { type BlockGrid, blockGrid } from "./block-grid";
import { cycleProfile, dayProfile } from "./pressure-profile";
import { countRuns, slowerCounts } from "./seen-runs";

const HOUR = 3600;
/** Fewest blocks for a bootstrap to mean anything; a shorter record is cut into this many. */
const FEWEST_BLOCKS = 12;

/**
 * Sums of one visit over equal blocks of time (an hour, less for a record under twelve hours), from which two visits are compared.
 * @param record with pressure in gauge, as the analysis saw it
 */
export function measureVisit(record: LogRecord, analysis: Analysis): VisitMeasures {
  const blockS = Math.min(HOUR, Math.max(1, record.duration / FEWEST_BLOCKS));
  const grid = blockGrid(blockS, Math.max(1, Math.ceil(record.duration / blockS - 1e-9)));
  const { segments, outcomes, site } = analysis;
  const pump = isCannotTell(segments.pump) ? null : segments.pump;
  const tellsShort = outcomes.some((o) => o.kind === "short-cycles" && (o.state === "found" || o.state === "clear"));
  const looked = outcomes.some((o) => o.kind === "oscillation" && (o.state === "found" || o.state === "clear"));
  const pressure = mainChannel(record, "pressure");
  const flow = mainChannel(record, "flow");
  const runs = pump?.runs ?? [];
  const { starts, shortCycles } = countRuns(runs, site.shortCycleLimit.value, grid);
  const whole = [{ from: 0, to: record.duration }];
  return {
    blockS,
    blocks: {
      pumpKnown: pump === null ? grid.zeros() : grid.sumSpans(pump.observed),
      starts,
      shortCycles: tellsShort ? shortCycles : null,
      lookedAt: looked ? grid.sumSpans(pump === null || pump.mode !== "switching" ? whole : runs) : grid.zeros(),
      ...trackedSums(pressure, pump, analysis, record.duration, grid),
      drawn: flow === null ? null : sumVolume(flow, grid),
    },
    slower: slowerCounts(runs, site.shortCycleLimit.value, tellsShort, grid),
    pumpIntervalS: pump === null ? null : witnessInterval(record, pump),
    runsFromPressure: pump?.basis === "pressure",
    shortLimitS: site.shortCycleLimit.value,
    peakStartsPerHour: findingOf(outcomes, "cycling")?.peakStartsPerHour ?? null,
    bandPa: bandOf(analysis),
    intervalS: pressure === null ? null : typicalInterval(pressure),
    episodes:
      findingOf(outcomes, "oscillation")?.episodes.map((e) => ({
        fromS: e.from,
        toS: e.to,
        periodS: e.period.value,
        heightPa: e.peakToPeak.value,
      })) ?? [],
    driftsPa: findingOf(outcomes, "drift")?.windows.map((w) => w.change.value) ?? [],
    days: pressure === null ? null : dayProfile(pressure, record.clock, record.duration),
    cycles: pressure === null ? null : cycleProfile(pressure, runs),
    limits: {
      "starts-per-hour": site.limits.startsPerHour?.value ?? findingOf(outcomes, "cycling")?.allowedStartsPerHour ?? null,
      "short-cycles-per-day": 0,
      "oscillating-share": null,
      "oscillation-height": site.limits.oscillationPeakToPeak.value,
      "drift-at-steady-flow": site.limits.driftAtSteadyFlow.value,
      "share-within-band": site.limits.shareWithinBand?.value ?? null,
    },
  };
}

/** The band that pressure was held against; null where no set pressure is known. */
function bandOf({ outcomes, site }: Analysis): number | null {
  const tracking = findingOf(outcomes, "tracking");
  return tracking === null || tracking.setPressure === null ? null : (tracking.band ?? site.limits.band.value);
}

/** Time that was held against the set pressure and time within the band, a block: while the pump ran, where that is known. */
function trackedSums(pressure: Channel | null, pump: PumpState | null, analysis: Analysis, duration: number, grid: BlockGrid) {
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

/** The slowest of the pump's witnesses; null for a log on change, which misses nothing. */
function witnessInterval(record: LogRecord, pump: PumpState): number | null {
  const headings = pump.pumps.length > 0 ? pump.pumps.map((p) => p.channel) : [pump.channel];
  const intervals = record.channels.flatMap((c) =>
    headings.includes(c.heading) && c.sampling.kind !== "on-change" ? (typicalInterval(c) ?? []) : [],
  );
  return intervals.length === 0 ? null : intervals.reduce((a, b) => Math.max(a, b));
}

/** A sample stands for the time to the next one, but not across a gap (more than five typical intervals). */
function eachSample(channel: Channel, visit: (t: number, value: number, lasts: number) => void): void {
  const { sampling, values } = channel;
  const n = sampleCount(sampling);
  const longest = sampling.kind === "on-change" ? Number.POSITIVE_INFINITY : 5 * (typicalInterval(channel) ?? 0);
  for (let i = 0; i + 1 < n; i++) {
    const t = timeAt(sampling, i);
    const lasts = timeAt(sampling, i + 1) - t;
    if (lasts <= longest && !Number.isNaN(values[i])) visit(t, values[i], lasts);
  }
}

function typicalInterval({ sampling }: Channel): number | null {
  if (sampling.kind === "even") return sampling.step;
  const n = sampling.times.length;
  return n < 2 ? null : median(Float64Array.from({ length: n - 1 }, (_, i) => sampling.times[i + 1] - sampling.times[i]));
}

function sumVolume(flow: Channel, grid: BlockGrid): number[] {
  const drawn = grid.zeros();
  eachSample(flow, (t, value, lasts) => {
    drawn[grid.blockOf(t)] += value * lasts;
  });
  return drawn;
}
