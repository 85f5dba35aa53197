import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord, Sampling } from "../../shared/record/log-record";
import { timeAt } from "../../shared/record/sampling";
import { quantile } from "../numerics/order-statistics";
import { type SampleInterval, sampleInterval } from "./sample-interval";

/** Zones stand whole, half or quarter hours apart (IANA time zone database), at most a day and two hours. */
const UNITS = [3600, 1800, 900];
const FARTHEST = 26 * 3600; // s, from UTC-12 to UTC+14
/** Pauses of a logger are this much more common than clocks put to another zone; ours, no source. */
const PAUSES_PER_SLIP = 20;
/** Odds from which it is said. */
const LIKELY = 3;
/** Stamps of whole seconds round by half of one. */
const STAMP = 0.5;
const MOST_PAIRS = 500;
const LEAST_PAIRS = 30;
/** Readings of this long on either side are compared, s, at most three of them. */
const COMPARED = 30;
/** A change is measured by what nine in ten neighbouring readings keep to, and sorted by these multiples of it. */
const USUAL = 0.9;
const FAR_OUT = [1, 2, 4];

/**
 * Clocks put forward to another zone while the log ran on: the stamps leap by whole quarter hours, to the sample, and every channel goes on as if one
 * sampling step had passed. Two likelihood ratios against a pause of the logger are multiplied: how seldom a pause lasts just so long, and how seldom
 * readings so far apart in this record agree as neighbours do; the readings must speak for it themselves. A clock put back is seen when the file is read.
 * Wrong where a log pauses by the clock (a scheduled hour) while nothing changes. Bayes' rule; no published threshold.
 */
export function findZoneSlips(record: LogRecord): LogFault[] {
  const samplings = [...new Set<Sampling>(record.channels.map((channel) => channel.sampling))];
  return samplings.flatMap((sampling) => {
    const interval = sampleInterval(sampling);
    if (interval === null || sampling.kind !== "listed") return [];
    const channels = record.channels.filter((channel) => channel.sampling === sampling);
    const gaps = gapsOf(sampling.times, interval);
    return gaps.flatMap(({ at, leap }): LogFault[] => {
      const unit = unitOf(leap, interval.median);
      if (unit === null) return [];
      const byLength = unit / Math.max(1, interval.median) / (PAUSES_PER_SLIP + gaps.length);
      const byReadings = goingOn(channels, at, Math.round(leap / interval.median), interval.median);
      if (!(byReadings > 1 && byLength * byReadings > LIKELY)) return [];
      const note = { kind: "stamps-leap", leap: Math.round(leap / unit) * unit } as const;
      return [{ kind: "zone-slip", channel: null, from: timeAt(sampling, at - 1), to: timeAt(sampling, at), note }];
    });
  });
}

/** A gap before sample `at`, and by how much longer than a sampling step it lasts, s. */
type Gap = { readonly at: number; readonly leap: number };

function gapsOf(times: Float64Array, { median, longest }: SampleInterval): Gap[] {
  const gaps: Gap[] = [];
  for (let at = 1; at < times.length; at++)
    if (times[at] - times[at - 1] > longest) gaps.push({ at, leap: times[at] - times[at - 1] - median });
  return gaps;
}

/** The largest unit that a leap is a whole number of, to the sample; null where it is none, or sampling too slow to tell. */
function unitOf(leap: number, step: number): number | null {
  const isWhole = (unit: number) => Math.abs(leap - Math.round(leap / unit) * unit) <= step / 2 + STAMP;
  return (leap <= FARTHEST ? UNITS.find((unit) => step < unit && isWhole(unit)) : undefined) ?? null;
}

/** Likelihood ratio of the readings around sample `at`: neighbours against readings so many samples apart. 1 where the record is too short to tell. */
function goingOn(channels: readonly Channel[], at: number, apart: number, step: number): number {
  const width = Math.max(1, Math.min(3, Math.floor(COMPARED / step)));
  const count = channels[0].values.length;
  const far = Math.min(apart, count >> 1);
  const last = count - width - far;
  const stride = Math.max(1, Math.floor((last - width) / MOST_PAIRS));
  const near: number[] = [];
  for (let i = width; i < last; i += stride) if (Math.abs(i - at) > width) near.push(i);
  if (near.length < LEAST_PAIRS) return 1;
  const usual = channels.map(({ values }) =>
    quantile(
      near.map((i) => Math.abs(change(values, i, i, width))).filter((d) => d - d === 0),
      USUAL,
    ),
  );
  /** How far out the channel is that changed most, as a place among FAR_OUT. */
  const farOut = (before: number, after: number) => {
    const most = channels.reduce((m, { values }, c) => {
      const d = Math.abs(change(values, before, after, width));
      return d > usual[c] ? Math.max(m, d / usual[c]) : m;
    }, 0);
    return FAR_OUT.filter((edge) => most > edge).length;
  };
  const here = farOut(at, at);
  const shareAlike = (distance: number) => (near.filter((i) => farOut(i, i + distance) === here).length + 0.5) / (near.length + 1);
  return shareAlike(0) / shareAlike(far);
}

/** Mean of `width` values from `after` on less that of as many before `before`. */
function change(values: Channel["values"], before: number, after: number, width: number): number {
  let sum = 0;
  for (let k = 0; k < width; k++) sum += values[after + k] - values[before - 1 - k];
  return sum / width;
}
