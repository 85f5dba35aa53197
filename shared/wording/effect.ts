import type { Effect } from "../findings/advice";
import type { ChangeId, MeasureId } from "../findings/what-if";
import { formatQuantity, formatRange } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";
import { withSmallInitial } from "./small-initial";
import { MEASURE_NAMES, sayChange, sayWhatIfWarning } from "./what-if";

/** What a step is made for, and what it may cost, in the order it is told. */
const TOLD: readonly MeasureId[] = [
  "starts-per-hour",
  "short-cycles-per-hour",
  "oscillation-peak-to-peak",
  "drift-at-steady-flow",
  "lowest-pressure",
  "highest-pressure",
];
/** A smaller move than this is none to speak of: a tenth of a start an hour, half a psi. */
const SPOKEN_OF: Readonly<Record<MeasureId, number>> = {
  "starts-per-hour": 0.2,
  "short-cycles-per-hour": 0.2,
  "oscillation-peak-to-peak": 3500,
  "share-oscillating": 0.02,
  "drift-at-steady-flow": 3500,
  "lowest-pressure": 3500,
  "highest-pressure": 3500,
  "stored-water": 2e-4,
};
/** A tank that is changed is told with the water it holds, whatever else moves: softer is less water. */
const TANK: readonly ChangeId[] = ["precharge", "tank-volume"];

/** What the model expects of a step, with the spread of both ends; warnings first. */
export function sayEffect({ changes, now, after, warnings }: Effect, units: UnitChoice): string {
  const ids: readonly MeasureId[] = changes.some((change) => TANK.includes(change.id)) ? [...TOLD, "stored-water"] : TOLD;
  const moved = ids.filter((id) => id === "stored-water" || Math.abs(after[id].value - now[id].value) > SPOKEN_OF[id]);
  const say = (id: MeasureId) => {
    const { name, shown } = MEASURE_NAMES[id];
    const one = (value: number) => formatQuantity(value, shown, units);
    const { low, high, value } = after[id];
    const spread = one(low) === one(high) ? "" : ` (${formatRange(low, high, shown, units, 3)})`;
    return `${name.toLowerCase()} ${one(now[id].value)} becomes ${one(value)}${spread}`;
  };
  const warned = warnings.map((warning) => sayWhatIfWarning(warning, units)).join(" ");
  const what = changes.map((change) => withSmallInitial(sayChange(change, units))).join(" and ");
  const effect =
    moved.length === 0
      ? `The model fitted to this log, run with ${what}, shows no change to speak of in starts, short cycles, swings and drift.`
      : `By the model fitted to this log, with ${what}: ${moved.map(say).join("; ")}.`;
  return warned === "" ? effect : `${warned} ${effect}`;
}
