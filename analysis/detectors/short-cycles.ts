import type { CannotTell } from "../../shared/findings/cannot-tell";
import { isCannotTell, type PumpState } from "../../shared/findings/segment";
import { spanLength } from "../../shared/findings/span";
import type { LogRecord } from "../../shared/record/log-record";
import type { Measured } from "../../shared/units/measured";
import { type Seconds, seconds } from "../../shared/units/quantity";
import { othersFellBetween, SAMPLES_FOR_PRESSURE, samplesOfRun, witnessInterval } from "../segments/witness-interval";
import type { Detector } from "./detector";

/** A run is seen for certain where it holds two samples, and its length is known to a tenth where it holds ten or so. */
const SAMPLES_TO_SEE = 2;
const SAMPLES_TO_TRUST = 6;
/** Of runs that pressure alone tells with fewer samples each, most have fallen between two. */
const SAMPLES_TO_COUNT = 3;
/** Sampling at a thirtieth of the limit shows the shortest runs that a pump can make. */
const LOG_AT = 30;

/**
 * Runs of the pump shorter than the site's limit.
 * A run cut by a gap or an end of the record is left out: its true length is not known.
 * Wrong where the pump state rests on pressure alone and draws start and stop faster than the pump.
 */
export const shortCycles: Detector<"short-cycles"> = {
  kind: "short-cycles",
  detect({ record, segments: { pump }, site }) {
    const kind = "short-cycles" as const;
    if (isCannotTell(pump)) return { kind, state: "cannot-tell", because: [{ ...pump, about: kind }] };
    const limit = site.shortCycleLimit.value;
    const found = pump.runs.flatMap((run, i) => (run.complete && spanLength(run) < limit ? [i] : []));
    const stops = hiddenStops(pump, limit);
    const doubt = pump.doubt === undefined ? null : { ...pump.doubt, about: kind };
    const blind = whatIsHidden(record, pump, limit) ?? stops ?? doubt;
    const unsure = tooNearToTell(record, pump, limit);
    const limits = [blind, unsure].filter((reason) => reason !== null);
    if (found.length === 0) return blind === null ? { kind, state: "clear", limits } : { kind, state: "cannot-tell", because: [blind] };
    // runs of a sample or two are those that happened to be seen
    if (blind !== null && samplesOfRun(record, pump) < SAMPLES_TO_COUNT) return { kind, state: "cannot-tell", because: [blind] };
    // a handful of stops that happened to show say nothing of how often the many others came too soon
    if (stops !== null && MOSTLY_HIDDEN * pump.runs.length > pump.runs.filter((run) => run.complete).length)
      return { kind, state: "cannot-tell", because: [stops] };
    const places = found.map((i) => pump.runs[i]);
    const shortest = seconds(places.reduce((least, run) => Math.min(least, spanLength(run)), Number.POSITIVE_INFINITY));
    const count = rangeOfCount(record, pump, limit);
    const finding = { kind, places, channels: [pump.channel], limit, runs: found, count, shortest };
    return { kind, state: "found", finding, limits };
  },
};

/**
 * Sampled at over half the limit, short runs fall between samples; at over a sixth they may, unless all runs and rests that were seen
 * are so much longer that none is likely to be missed.
 */
function whatIsHidden(record: LogRecord, pump: PumpState, limit: Seconds): CannotTell | null {
  const interval = witnessInterval(record, pump);
  if (interval === null) return null;
  // a pump that seems never to stop, or never to start, may do so between two samples
  if (pump.mode !== "switching") return interval * SAMPLES_TO_SEE > limit ? tooSlow(interval, limit) : null;
  if (othersFellBetween(record, pump)) return tooSlow(interval, limit);
  if (interval * SAMPLES_TO_TRUST <= limit && !(samplesOfRun(record, pump) < SAMPLES_FOR_PRESSURE)) return null;
  const shortest = pump.runs.reduce((least, run) => (run.complete ? Math.min(least, spanLength(run)) : least), Number.POSITIVE_INFINITY);
  if (interval * SAMPLES_TO_SEE <= limit && shortest >= interval * SAMPLES_TO_TRUST) return null;
  return tooSlow(interval, limit);
}

const tooSlow = (interval: Seconds, limit: Seconds): CannotTell => ({
  id: "sampling-too-slow",
  about: "short-cycles",
  detail: { intervalS: interval, limitS: limit, logEveryS: Math.min(logAt(limit), interval / 2) },
});

const logAt = (limit: Seconds) => Math.max(1, Math.round(limit / LOG_AT));

/** Start and stop each lie within half an interval: a run nearer to the limit than one interval may be on either side of it. */
function rangeOfCount(record: LogRecord, pump: PumpState, limit: Seconds): Measured {
  const interval = witnessInterval(record, pump) ?? 0;
  const lengths = pump.runs.filter((run) => run.complete).map(spanLength);
  const shorterThan = (length: number) => lengths.filter((run) => run < length).length;
  const low = lengths.filter((run) => run < limit && run <= limit - interval).length;
  return { value: shorterThan(limit), low, high: shorterThan(limit + interval) };
}

function tooNearToTell(record: LogRecord, pump: PumpState, limit: Seconds): CannotTell | null {
  const interval = witnessInterval(record, pump) ?? 0;
  const { low, high } = rangeOfCount(record, pump, limit);
  const unsureRuns = high - low;
  if (unsureRuns === 0) return null;
  const detail = { intervalS: interval, limitS: limit, logEveryS: Math.min(logAt(limit), interval / 2), unsureRuns };
  return { id: "sampling-too-slow", about: "short-cycles", detail };
}

const MANY_HIDDEN = 0.2; // of the runs
const MOSTLY_HIDDEN = 0.5; // of the runs

/**
 * Neither pressure nor flow shows when a drive went to sleep: where many stops are hidden, runs may have been short unseen. By flow a run lasted at least as
 * long as water was seen, so that the long ones are no question.
 */
function hiddenStops({ basis, runs }: PumpState, limit: Seconds): CannotTell | null {
  if (basis !== "pressure" && basis !== "flow") return null;
  const open = runs.filter((run) => !run.complete && (basis === "pressure" || spanLength(run) < limit));
  const hidden = open.length - 2; // the record's own two ends may cut one each
  if (hidden <= MANY_HIDDEN * runs.length) return null;
  return { id: "no-pump-state", about: "short-cycles", detail: { missing: "speed", hiddenStops: hidden } };
}
