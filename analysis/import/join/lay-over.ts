import type { ImportQuestion } from "../../../shared/record/import-question";
import type { Channel } from "../../../shared/record/log-record";
import { timesOf } from "../../../shared/record/sampling";
import { measured } from "../../../shared/units/measured";
import { seconds } from "../../../shared/units/quantity";
import { type ClockOffset, findClockOffset, type Trace } from "../clock/clock-offset";
import type { FilePart } from "../file-part";
import { medianInterval } from "../find-sampling";
import type { PlacedPart } from "./same-log";

/** What was found out about the clocks of two loggers. */
export type ClockCheck = { readonly notes: FilePart["notes"]; readonly question: ImportQuestion | null; readonly shift: number };

const SHIFT = "shift";
const AS_STAMPED = "as-stamped";

/**
 * Compares the clock of a second logger with that of the first by what both saw. A difference beyond doubt of its interval is proposed and
 * asked, never applied by itself.
 * @param answer the person's answer to the question, if any
 */
export function checkClocks(first: PlacedPart, second: PlacedPart, answer: string | undefined): ClockCheck {
  const same = sharedChannels(first, second);
  const files = [first.file.name, second.file.name];
  if (same === null && sameInstants(first, second)) return { notes: [{ kind: "same-instants", files }], question: null, shift: 0 };
  const related = same === null ? relatedChannels(first, second) : null;
  const found = same !== null ? offsetOf(...same) : related !== null ? offsetEitherWay(...related) : null;
  if (found === null) return { notes: [{ kind: "clocks-not-compared", files }], question: null, shift: 0 };
  const offset = { ...found.offset, correlation: found.correlation };
  const step = Math.max(intervalOf(first), intervalOf(second));
  const own = related === null ? 0 : LAG_OF_ITS_OWN;
  if (Math.abs(found.offset.value) <= Math.max(2 * step, (found.offset.high - found.offset.low) / 2, own)) {
    return { notes: [{ kind: "clocks-agree", files, offset }], question: null, shift: 0 };
  }
  const question: ImportQuestion = {
    id: "clock",
    asks: {
      kind: "two-clocks",
      file: second.file.name,
      against: first.file.name,
      offset,
      lag: related === null ? null : LAG_OF_ITS_OWN,
    },
    options: [AS_STAMPED, SHIFT],
    assumed: answer === SHIFT ? SHIFT : AS_STAMPED,
  };
  return {
    notes: [{ kind: "clock-offset", file: second.file.name, against: first.file.name, offset }],
    question,
    shift: answer === SHIFT ? found.offset.value : 0,
  };
}

/** Different quantities written at the very same instants, row for row: one logger that keeps a file for each. */
function sameInstants(first: PlacedPart, second: PlacedPart): boolean {
  const [a, b] = [first, second].map(({ origins }) => origins[0].sampling);
  return first.start === second.start && a.kind === "even" && b.kind === "even" && a.step === b.step && a.count === b.count;
}

const intervalOf = (part: PlacedPart) => medianInterval(timesOf(part.origins[0].sampling)) || 1;

/** Two channels that see the same events: pressure twice, else flow twice. */
function sharedChannels(first: PlacedPart, second: PlacedPart): [Channel, Channel] | null {
  for (const role of ["pressure", "flow", "speed", "running", "current", "power"]) {
    const [a, b] = [first, second].map((part) => part.channels.find((channel) => channel.role === role));
    if (a !== undefined && b !== undefined) return [a, b];
  }
  return null;
}

/** A tank lets the pressure follow the flow, a drive the speed the pressure, by some seconds: no fault of a clock. Common practice, no source, s. */
const LAG_OF_ITS_OWN = 15;

/** Two channels that answer to the same events: a draw pulls the pressure down and the pump up. */
function relatedChannels(first: PlacedPart, second: PlacedPart): [Channel, Channel] | null {
  const roles = ["pressure", "flow", "speed", "current", "power", "running"];
  const [a, b] = [first, second].map((part) => roles.flatMap((role) => part.channels.find((channel) => channel.role === role) ?? []));
  return a.length === 0 || b.length === 0 ? null : [a[0], b[0]];
}

/** The better of both ways: one may rise where the other falls. */
function offsetEitherWay(a: Channel, b: Channel): ClockOffset | null {
  const along = offsetOf(a, b);
  const against = offsetOf(a, { ...b, values: b.values.map((value) => -value) });
  if (along === null || against === null) return along ?? against;
  return along.correlation >= against.correlation ? along : against;
}

const HOUR = 3600;
/** A wrong zone, summer time and half of the day at most. */
const MOST_HOURS = 13;

/** As stamped, else with whole hours taken off, as a wrong zone or summer time puts them on: then the records need not overlap as stamped. */
function offsetOf(a: Channel, b: Channel): ClockOffset | null {
  const [x, y] = [traceOf(a), traceOf(b)];
  if (x.times.length < 20 || y.times.length < 20) return null;
  const most = Math.min(2 * HOUR, Math.min(spanOf(x), spanOf(y)) / 2);
  const plain = findClockOffset(x, y, most);
  if (plain?.certain) return withStampError(plain, x, y);
  const hours = Math.round((middleOf(x) - middleOf(y)) / HOUR);
  if (hours === 0 || Math.abs(hours) > MOST_HOURS) return null;
  const found = findClockOffset(x, { ...y, times: y.times.map((t) => t + hours * HOUR) }, most);
  if (!found?.certain) return null;
  const { value, low, high } = found.offset;
  const [v, l, h] = [value, low, high].map((s) => seconds(s + hours * HOUR));
  return withStampError({ ...found, offset: measured(v, l, h) }, x, y);
}

/** Steps to which stamps are cut, s. */
const STAMP_STEPS = [1, 0.1, 0.01, 0.001];

/**
 * The interval of an offset, widened by the step to which each logger cuts its stamps: a reading stamped to whole seconds was taken anywhere within its
 * second, and all of one logger alike. Source: JCGM 100:2008 (GUM) 4.3.7, a rectangular distribution of width w has the variance w^2 / 12.
 */
function withStampError(found: ClockOffset, ...traces: readonly Trace[]): ClockOffset {
  const { value, low, high } = found.offset;
  const variance = traces.reduce((sum, { times }) => sum + stampStep(times) ** 2 / 12, ((high - low) / 3.92) ** 2);
  const half = 1.96 * Math.sqrt(variance);
  return { ...found, offset: measured(value, seconds(value - half), seconds(value + half)) };
}

const stampStep = (times: Float64Array): number =>
  STAMP_STEPS.find((step) => times.every((t) => Math.abs(t / step - Math.round(t / step)) < 1e-3)) ?? 0;

const middleOf = ({ times }: Trace) => (times[0] + times[times.length - 1]) / 2;
const spanOf = ({ times }: Trace) => times[times.length - 1] - times[0];

/** The samples that are there. */
function traceOf({ sampling, values }: Channel): Trace {
  const times = timesOf(sampling);
  const there = (_: number, i: number) => !Number.isNaN(values[i]);
  return { times: times.filter(there), values: Float64Array.from(values).filter((value) => !Number.isNaN(value)) };
}
