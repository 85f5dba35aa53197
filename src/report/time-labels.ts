import type { FindingsDocument, Instant } from "../../shared/schemas/findings-document";

/** Instants of a document to record time and back to short labels, in the zone the record was written in (UTC where none is known). */
export function timeLabels({ record }: FindingsDocument) {
  const epoch = typeof record.from === "string" ? Date.parse(record.from) / 1000 : 0;
  const secondsOf = (instant: Instant): number => (typeof instant === "string" ? Date.parse(instant) / 1000 - epoch : instant);
  const long = record.to !== null && secondsOf(record.to) > 86400;
  const labelAt = (s: number): string => {
    if (record.clock !== "absolute") return `${Math.round(s)} s`;
    const iso = new Date(Math.round((epoch + s) * 1000)).toISOString();
    return long ? `${iso.slice(5, 10)} ${iso.slice(11, 16)}` : iso.slice(11, 19);
  };
  return {
    secondsOf,
    labelAt,
    zoneNote: record.clock !== "absolute" ? "seconds from the first row" : record.zone === null ? "local time of the logger" : "UTC",
  };
}
