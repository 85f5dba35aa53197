import type { Analysis } from "../../shared/findings/analysis";
import type { VisitMeasures } from "../../shared/findings/comparison";
import { findingOf } from "../../shared/findings/finding";
import { isCannotTell, type PumpState } from "../../shared/findings/segment";
import type { Clock } from "../../shared/record/clock";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { zoneOffsets } from "../import/clock/zone-offsets";
import { type BlockGrid, blocksOf } from "./block-grid";
import { eachSample, typicalInterval } from "./each-sample";
import { cycleProfile, dayProfile } from "./pressure-profile";
import { countRuns, slowerCounts } from "./seen-runs";
import { bandOf, trackedSums } from "./within-band";

const DAY = 86400;

/**
 * Sums of one visit over equal blocks of time (an hour, less for a record under twelve hours), from which two visits are compared.
 * @param record with pressure in gauge, as the analysis saw it
 */
export function measureVisit(record: LogRecord, analysis: Analysis): VisitMeasures {
  const { blockS, grid } = blocksOf(record.duration);
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
    beginsS: timeOfDay(record.clock),
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

/** On the site's clock where its zone is known, else on the logger's, s after midnight. A change of the clock within the record is passed over. */
function timeOfDay(clock: Clock): number | null {
  if (clock.kind === "elapsed") return null;
  const offset = clock.zone === null ? 0 : zoneOffsets(clock.zone, clock.epoch, clock.epoch + 1).offsets[0];
  return (((clock.epoch + offset) % DAY) + DAY) % DAY;
}

/** The slowest of the pump's witnesses; null for a log on change, which misses nothing. */
function witnessInterval(record: LogRecord, pump: PumpState): number | null {
  const headings = pump.pumps.length > 0 ? pump.pumps.map((p) => p.channel) : [pump.channel];
  const intervals = record.channels.flatMap((c) =>
    headings.includes(c.heading) && c.sampling.kind !== "on-change" ? (typicalInterval(c) ?? []) : [],
  );
  return intervals.length === 0 ? null : intervals.reduce((a, b) => Math.max(a, b));
}

function sumVolume(flow: Channel, grid: BlockGrid): number[] {
  const drawn = grid.zeros();
  eachSample(flow, (t, value, lasts) => {
    drawn[grid.blockOf(t)] += value * lasts;
  });
  return drawn;
}
