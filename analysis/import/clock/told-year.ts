import { civilFromDays } from "./civil-days";
import type { ClockHints } from "./clock-hints";
import { possibleOrders } from "./date-order";
import { toldSeconds } from "./preamble-clock";
import { startOf } from "./start-of-log";

/** Words for the year in the languages of the headings, with the year behind them; common practice, no source. */
const YEAR_LINE = /(?:^|[^\p{L}])(?:year|jahr|ann[ée]e|a[ñn]o|anno|jaar)[^\p{L}\d]{0,6}((?:19|20)\d{2})(?!\d)/iu;
const YEAR_IN_NAME = /(?<!\d)(20\d{2})(?!\d{3})/;

/** The year of a clock that does not write it: from an answer, a start, a line or heading that names it, any date above the table, or the name of the file. Null where none does. */
export function toldYear(hints: ClockHints): number | null {
  const start = startOf(hints);
  if (start.seconds !== null) return yearOf(start.seconds);
  for (const line of [...hints.context.preamble, ...hints.headings]) {
    const named = YEAR_LINE.exec(line);
    if (named !== null) return Number(named[1]);
  }
  for (const stamp of hints.told.stamps) {
    if (!stamp.hasDate) continue;
    const { seconds } = toldSeconds(stamp, possibleOrders([stamp.text])[0] ?? "dmy");
    if (!Number.isNaN(seconds)) return yearOf(seconds);
  }
  const inName = YEAR_IN_NAME.exec(hints.context.file);
  return inName === null ? null : Number(inName[1]);
}

const yearOf = (seconds: number) => civilFromDays(Math.floor(seconds / 86400)).year;
