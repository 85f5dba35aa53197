import { isCannotTell, type Segments } from "../../shared/findings/segment";
import { channelsOf } from "../../shared/record/find-channel";
import type { LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter } from "../../shared/record/sampling";

const LEAST_RUNS = 2;
/** Of the runs with a level at both ends, so many end higher than they began, and of the rests after them as many lower. */
const MOSTLY = 0.9;

/**
 * Whether a logged level rises in the pump's runs and falls between them: the pump fills an open tank, as a tower, and its level switches it. The level of a tank that
 * the pump draws from goes the other way.
 */
export function fillsOpenTank({ pump }: Segments, record: LogRecord): boolean {
  if (isCannotTell(pump)) return false;
  const { runs } = pump;
  if (runs.length < LEAST_RUNS) return false;
  return channelsOf(record, "level").some(({ values, sampling }) => {
    const at = (t: number) => values[Math.min(values.length - 1, indexAtOrAfter(sampling, t))];
    const rises = runs.filter(({ from, to }) => at(to) > at(from));
    const falls = runs.slice(1).filter(({ from }, i) => at(from) < at(runs[i].to));
    return rises.length >= MOSTLY * runs.length && falls.length >= MOSTLY * (runs.length - 1);
  });
}
