import { isCannotTell } from "../../../shared/findings/segment";
import type { Channel } from "../../../shared/record/log-record";
import { indexAtOrAfter } from "../../../shared/record/sampling";
import { type Measured, measured } from "../../../shared/units/measured";
import { quantile, rangeOf } from "../../numerics/order-statistics";
import { robustLine } from "../../numerics/robust-line";
import type { Evidence } from "../detector";

const LEAST_WINDOWS = 6;
/** The flows must differ by this part of the largest, else a slope says nothing. */
const LEAST_REACH = 0.2;

/** Fall of pressure per flow, Pa per m3/s, by a robust line through the steady windows with the pump running; null without flow or with too few. */
export function findDroop({ segments: { steady } }: Evidence, pressure: Channel): Measured | null {
  if (isCannotTell(steady)) return null;
  const points = steady.flatMap((w) => {
    if (w.meanFlow === null || w.pumpRunning === false) return [];
    const values = pressure.values.subarray(indexAtOrAfter(pressure.sampling, w.from), indexAtOrAfter(pressure.sampling, w.to));
    const middle = quantile(values, 0.5);
    return Number.isFinite(middle) ? [{ flow: w.meanFlow as number, pressure: middle }] : [];
  });
  const flows = points.map((p) => p.flow);
  const range = rangeOf(flows);
  if (points.length < LEAST_WINDOWS || range === null || range.high - range.low < LEAST_REACH * range.high) return null;
  const line = robustLine(
    flows,
    points.map((p) => p.pressure),
  );
  if (line === null || !Number.isFinite(line.low + line.high)) return null;
  return measured(-line.slope, -line.high, -line.low);
}
