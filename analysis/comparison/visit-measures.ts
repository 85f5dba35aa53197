import type { Analysis } from "../../shared/findings/analysis";
import type { VisitMeasures } from "../../shared/findings/comparison";
import { findingOf } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { mainChannel } from "../../shared/record/find-channel";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { sampleCount, timeAt } from "../../shared/record/sampling";
import { median } from "../numerics/order-statistics";

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
  const oscillation = findingOf(outcomes, "oscillation");
  const looked = outcomes.some((o) => o.kind === "oscillation" && (o.state === "found" || o.state === "clear"));
  const pressure = mainChannel(record, "pressure");
  const flow = mainChannel(record, "flow");
  const tracking = findingOf(outcomes, "tracking");
  const tracked = grid.zeros();
  const within = grid.zeros();
  if (pressure !== null && tracking !== null && tracking.setPressure !== null) {
    const running = pump === null || pump.mode === "always-running" ? [{ from: 0, to: record.duration } as Span] : pump.runs;
    sumWithin(pressure, running, tracking.setPressure, tracking.band ?? site.limits.band.value, grid, tracked, within);
  }
  const short = findingOf(outcomes, "short-cycles");
  return {
    blockS,
    blocks: {
      pumpKnown: pump === null ? grid.zeros() : grid.sumSpans(pump.observed),
      starts: grid.countAt(pump?.runs.filter((run) => run.from > 0).map((run) => run.from) ?? []),
      shortCycles: grid.countAt(short === null || pump === null ? [] : short.runs.map((i) => pump.runs[i].from)),
      lookedAt: !looked
        ? grid.zeros()
        : pump === null || pump.mode !== "switching"
          ? grid.sumSpans([{ from: 0, to: record.duration } as Span])
          : grid.sumSpans(pump.runs),
      oscillating: grid.sumSpans(oscillation?.episodes ?? []),
      tracked,
      withinBand: within,
      drawn: flow === null ? null : sumVolume(flow, grid),
    },
    intervalS: pressure === null ? null : typicalInterval(pressure),
    episodes: oscillation?.episodes.map((e) => ({ periodS: e.period.value, heightPa: e.peakToPeak.value, lengthS: e.to - e.from })) ?? [],
    driftsPa: findingOf(outcomes, "drift")?.windows.map((w) => w.change.value) ?? [],
    limits: {
      "starts-per-hour": site.limits.startsPerHour?.value ?? findingOf(outcomes, "cycling")?.allowedStartsPerHour ?? null,
      "short-cycles-per-day": 0,
      "oscillating-share": null,
      "oscillation-height": site.limits.oscillationPeakToPeak.value,
      "drift-at-steady-flow": site.limits.driftAtSteadyFlow.value,
      "share-within-band": null,
    },
  };
}

type Grid = ReturnType<typeof blockGrid>;

function blockGrid(blockS: number, count: number) {
  const zeros = (): number[] => new Array<number>(count).fill(0);
  const blockOf = (t: number) => Math.min(count - 1, Math.max(0, Math.floor(t / blockS)));
  /** Adds the seconds of a span to each block it touches. */
  const addSpan = (sums: number[], from: number, to: number) => {
    for (let b = blockOf(from); b <= blockOf(to); b++) {
      const overlap = Math.min(to, (b + 1) * blockS) - Math.max(from, b * blockS);
      if (overlap > 0) sums[b] += overlap;
    }
  };
  return {
    zeros,
    blockOf,
    sumSpans(spans: readonly Span[]): number[] {
      const sums = zeros();
      for (const span of spans) addSpan(sums, span.from, span.to);
      return sums;
    },
    countAt(instants: readonly number[]): number[] {
      const counts = zeros();
      for (const t of instants) counts[blockOf(t)]++;
      return counts;
    },
  };
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

function sumVolume(flow: Channel, grid: Grid): number[] {
  const drawn = grid.zeros();
  eachSample(flow, (t, value, lasts) => {
    drawn[grid.blockOf(t)] += value * lasts;
  });
  return drawn;
}

function sumWithin(
  pressure: Channel,
  running: readonly Span[],
  set: number,
  band: number,
  grid: Grid,
  tracked: number[],
  within: number[],
): void {
  let r = 0;
  eachSample(pressure, (t, value, lasts) => {
    while (r < running.length && running[r].to <= t) r++;
    if (r >= running.length || running[r].from > t) return;
    const b = grid.blockOf(t);
    tracked[b] += lasts;
    if (Math.abs(value - set) <= band) within[b] += lasts;
  });
}
