import type { ClockHints } from "./clock-hints";
import type { ColumnProfile } from "./column-profile";
import { findZone } from "./zone-text";

/** "utc_time", "Time (Z)", "TimeUTC". */
const worldTime = (heading: string): string | null =>
  /(?:^|[^a-z])(?:utc|gmt|zulu)(?![a-z])|UTC|GMT|[([]Z[)\]]/i.test(heading) && !/[([]z[)\]]/.test(heading) ? "UTC" : null;

/**
 * The zone of a clock whose cells name none: the start it counts from, the person, the headings of its columns, the lines above the table and the
 * site, in this order. Null where none of them says it.
 */
export function clockZone({ told, answers }: ClockHints, profiles: readonly ColumnProfile[], ofStart: string | null = null): string | null {
  const inHeadings = profiles
    .flatMap(({ column }) => [column.heading, column.unitsCell ?? ""])
    .map((text) => findZone(text) ?? worldTime(text));
  return ofStart ?? answers.zone ?? inHeadings.find((zone) => zone !== null) ?? told.zone ?? answers.siteZone;
}
