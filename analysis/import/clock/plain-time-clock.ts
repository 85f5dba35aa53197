import type { ImportQuestion } from "../../../shared/record/import-question";
import type { ClockHints } from "./clock-hints";
import { refused } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import type { ColumnProfile } from "./column-profile";
import { numberClock } from "./number-clock";

const UNITS: Readonly<Record<string, number>> = { seconds: 1, milliseconds: 1e-3, minutes: 60, hours: 3600, days: 86400 };

/** A rising column headed as a time whose unit is written nowhere: seconds are assumed, and asked, unless the interval in the preamble settles it. */
export function plainTimeClock(profile: ColumnProfile, hints: ClockHints): ClockReading {
  const step = medianStep(profile.numbers);
  const interval = hints.answers.interval ?? hints.told.interval;
  const fits = interval === null ? [] : Object.keys(UNITS).filter((name) => Math.abs(step * UNITS[name] - interval) < 0.02 * interval);
  const answer = hints.answers.clock;
  if (answer !== null && UNITS[answer] === undefined) throw refused("clock", answer, Object.keys(UNITS));
  const settled = answer ?? (fits.length === 1 ? fits[0] : null);
  const name = settled ?? "seconds";
  const reading = numberClock(
    profile,
    { kind: "elapsed", unitSeconds: UNITS[name], origin: 0, name: { unit: name, since: null }, certainty: settled === null ? 0.6 : 0.9 },
    hints,
  );
  return settled === null ? { ...reading, questions: [...reading.questions, unitQuestion(profile, step)] } : reading;
}

function unitQuestion(profile: ColumnProfile, step: number): ImportQuestion {
  const options = Object.keys(UNITS);
  return {
    id: "clock",
    asks: {
      kind: "time-unit",
      heading: profile.column.heading,
      steps: options.map((name) => Number((step * UNITS[name]).toPrecision(4))),
    },
    options,
    assumed: "seconds",
  };
}

function medianStep(numbers: Float64Array): number {
  const steps = numbers.slice(1).map((v, i) => v - numbers[i]);
  const known = steps.filter((v) => v > 0).sort();
  return known[known.length >> 1] ?? Number.NaN;
}
