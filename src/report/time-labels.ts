import type { Clock } from "../../shared/record/clock";
import type { FindingsDocument, Instant } from "../../shared/schemas/findings-document";
import { seconds } from "../../shared/units/quantity";
import { sayClockZone, sayInstant, saySpan } from "../../shared/wording/instant";

/** Instants of a document to record time and back to text, in the clock the record was written in. */
export function timeLabels({ record }: FindingsDocument, locale: string | null) {
  const epoch = typeof record.from === "string" ? Date.parse(record.from) / 1000 : 0;
  const clock: Clock = record.clock === "absolute" ? { kind: "absolute", epoch, zone: record.zone } : { kind: "elapsed" };
  const secondsOf = (instant: Instant): number => (typeof instant === "string" ? Date.parse(instant) / 1000 - epoch : instant);
  const duration = record.to === null ? 0 : secondsOf(record.to);
  return {
    secondsOf,
    whole: saySpan(clock, { from: seconds(0), to: seconds(duration) }, locale),
    /** Under an axis: the day without its year and the time without its seconds, where the record is long enough to spare them. */
    labelAt: (s: number) =>
      duration > 7200
        ? sayInstant(clock, s, locale)
            .replace(/:\d\d$/, "")
            .replace(/,? \d{4},?/, "")
        : sayInstant(clock, s, locale),
    zoneNote: sayClockZone(clock),
  };
}
