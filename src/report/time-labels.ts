import type { Clock } from "../../shared/record/clock";
import type { FindingsDocument, Instant } from "../../shared/schemas/findings-document";
import { seconds } from "../../shared/units/quantity";
import { sayClockZone, sayDays, saySpan } from "../../shared/wording/instant";
import { timeTicks } from "../charts/time-axis";

/** Times that fit under a picture without touching. */
const MOST_TICKS = 8;

/** Instants of a document to record time and back to text, in the clock the record was written in. */
export function timeLabels({ record }: FindingsDocument, locale: string | null) {
  const epoch = typeof record.from === "string" ? Date.parse(record.from) / 1000 : 0;
  const clock: Clock = record.clock === "absolute" ? { kind: "absolute", epoch, zone: record.zone } : { kind: "elapsed" };
  const secondsOf = (instant: Instant): number => (typeof instant === "string" ? Date.parse(instant) / 1000 - epoch : instant);
  const duration = record.to === null ? 0 : secondsOf(record.to);
  return {
    secondsOf,
    whole: saySpan(clock, { from: seconds(0), to: seconds(duration) }, locale),
    /** For people who only want to know when: " from 2 March 2026 to 5 March 2026 (3 days)", or how long. */
    days: sayDays(clock, duration, locale),
    say: (from: number, to: number) => saySpan(clock, { from: seconds(from), to: seconds(to) }, locale),
    ticks: (from: number, to: number) => timeTicks({ from: seconds(from), to: seconds(to) }, clock, false, MOST_TICKS, locale),
    zoneNote: sayClockZone(clock),
  };
}
