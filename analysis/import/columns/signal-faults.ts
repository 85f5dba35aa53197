import type { LogFault } from "../../../shared/record/log-fault";
import { seconds } from "../../../shared/units/quantity";
import type { ColumnReading } from "./column-reading";

/**
 * What a two-wire transmitter sends when it is broken, in the unit of the file: at or below 3.6 mA, at or above 21 mA.
 * Source: NAMUR recommendation NE 43. The same over 250 ohm is 0.9 V and 5.25 V.
 */
const BANDS: Partial<Record<NonNullable<ColumnReading["raw"]>["kind"], readonly [number, number]>> = {
  "4-20 mA": [3.6, 21],
  "1-5 V": [0.9, 5.25],
};

/**
 * Takes out, in place, the values of a live-zero signal that say the sensor or its wire is broken, and names the stretches as faults.
 * @param values SI as read, shape [n]     @param times s, shape [n]
 */
export function findSignalFaults(
  values: Float32Array | Float64Array,
  times: Float64Array,
  reading: ColumnReading,
  heading: string,
): LogFault[] {
  const band = reading.raw === null ? undefined : BANDS[reading.raw.kind];
  if (band === undefined || reading.factor === 0) return [];
  const scale = scaleOfFile(values, reading);
  const faults: LogFault[] = [];
  let open: { kind: LogFault["kind"]; from: number; to: number } | null = null;
  const close = () => {
    if (open === null) return;
    const isBelow = open.kind === "below-live-zero";
    const unit = reading.raw?.kind.slice(-2).trim() ?? "";
    const note = { kind: "beyond-live-zero", side: isBelow ? "below" : "above", limit: band[isBelow ? 0 : 1], unit } as const;
    faults.push({ kind: open.kind, channel: heading, from: seconds(open.from), to: seconds(open.to), note });
    open = null;
  };
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const signal = ((values[i] - reading.offset) / reading.factor) * scale;
    const kind = signal <= band[0] + 1e-4 ? "below-live-zero" : signal >= band[1] - 1e-4 ? "above-range" : null;
    if (kind === null || (open as { kind: string } | null)?.kind !== kind) close();
    if (kind === null) continue;
    open = { kind, from: open === null ? times[i] : (open as { from: number }).from, to: times[i] };
    values[i] = Number.NaN;
  }
  close();
  return faults;
}

/** To mA or V: a file may write its loop signal in amperes (no number passes 0.1) or microamperes, its voltage in millivolts (most pass 100). */
function scaleOfFile(values: Float32Array | Float64Array, { raw, factor, offset }: ColumnReading): number {
  let high = 0;
  for (const value of values) {
    const number = (value - offset) / factor;
    if (number > high) high = number;
  }
  if (raw?.kind === "4-20 mA") return high > 1000 ? 1e-3 : high > 0.1 ? 1 : 1e3;
  return high > 100 ? 1e-3 : 1;
}
