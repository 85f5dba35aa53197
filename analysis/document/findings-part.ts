import type { Analysis } from "../../shared/findings/analysis";
import { findingOf } from "../../shared/findings/finding";
import { isCannotTell } from "../../shared/findings/segment";
import type { LogRecord } from "../../shared/record/log-record";
import type { FindingsDocument, MeasuredField } from "../../shared/schemas/findings-document";
import type { Measured } from "../../shared/units/measured";
import { known, writeSpan } from "./record-part";

type Parts = Pick<FindingsDocument, "running" | "cycling" | "oscillation" | "drift" | "tracking" | "tank" | "leak" | "sensor">;

const write = (m: Measured | null | undefined): MeasuredField =>
  m === null || m === undefined ? null : { value: m.value, low: m.low, high: m.high };

/** The numbers of the findings, section by section; null where a detector could not tell. */
export function writeFindingParts({ clock }: LogRecord, { outcomes, segments, site }: Analysis): Parts {
  const pump = isCannotTell(segments.pump) ? null : segments.pump;
  const cycling = findingOf(outcomes, "cycling");
  const short = findingOf(outcomes, "short-cycles");
  const shortLooked = outcomes.some((o) => o.kind === "short-cycles" && (o.state === "found" || o.state === "clear"));
  const drift = findingOf(outcomes, "drift");
  const tracking = findingOf(outcomes, "tracking");
  const tank = findingOf(outcomes, "tank-charge");
  const leak = findingOf(outcomes, "leak-down");
  const sensor = findingOf(outcomes, "sensor");
  return {
    running: {
      basis: pump?.basis ?? null,
      runs: pump?.runs.map((run) => ({ ...writeSpan(clock, run), complete: run.complete })) ?? [],
    },
    cycling: {
      starts: cycling?.starts ?? null,
      peakStartsPerHour: cycling?.peakStartsPerHour ?? null,
      allowedStartsPerHour: cycling?.allowedStartsPerHour ?? null,
      shortCycle: {
        limitS: site.shortCycleLimit.value,
        count: short?.count.value ?? (shortLooked ? 0 : null),
        countLow: short?.count.low ?? (shortLooked ? 0 : null),
        countHigh: short?.count.high ?? (shortLooked ? unsureShortRuns(outcomes) : null),
        runs: short?.runs ?? [],
      },
      medianRunS: known(cycling?.medianRun),
      medianRestS: known(cycling?.medianRest),
      cutInPa: known(cycling?.cutIn?.value),
      cutOutPa: known(cycling?.cutOut?.value),
    },
    oscillation: {
      episodes:
        findingOf(outcomes, "oscillation")?.episodes.map((e) => ({
          channel: e.channel,
          ...writeSpan(clock, e),
          periodS: write(e.period),
          peakToPeakPa: write(e.peakToPeak),
          regularity: e.regularity,
          shape: e.shape,
          drivenBy: e.drivenBy,
        })) ?? [],
    },
    drift: {
      limitPa: site.limits.driftAtSteadyFlow.value,
      windows:
        drift?.windows.map((w) => ({ ...writeSpan(clock, w), meanFlow: known(w.meanFlow), changePa: write(w.change), over: w.over })) ?? [],
    },
    tracking: {
      setPressurePa: known(tracking?.setPressure ?? site.setPressure?.value),
      meanErrorPa: known(tracking?.meanError),
      shareWithinBand: known(tracking?.shareWithinBand),
      bandPa: known(tracking?.band ?? site.limits.band.value),
      lowestPa: known(tracking?.lowest),
      highestPa: known(tracking?.highest),
    },
    tank: {
      gasConstantJ: write(tank?.gasConstant),
      emptiesAtPa: write(tank?.emptiesAt),
      emptiesBelowPa: known(tank?.emptiesBelow),
      liveDrawdownM3: write(tank?.liveDrawdown),
      expectedGasConstantJ: known(tank?.expectedGasConstant),
    },
    leak: { flowM3s: write(leak?.flow), side: leak?.side ?? "unknown", minimumNightFlowM3s: known(leak?.minimumNightFlow) },
    sensor: { noisePa: known(sensor?.noise), noiseGrowsWithFlow: sensor?.noiseGrowsWithFlow ?? null, lagS: known(sensor?.lag?.value) },
  };
}

/** Runs just over the limit that may be under it, where none was found under it. */
function unsureShortRuns(outcomes: Analysis["outcomes"]): number {
  const short = outcomes.find((o) => o.kind === "short-cycles");
  const limits = short?.state === "clear" ? short.limits : [];
  return limits.reduce((most, { detail }) => Math.max(most, Number(detail.unsureRuns ?? 0)), 0);
}
