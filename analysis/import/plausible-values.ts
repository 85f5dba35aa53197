import type { ChannelRole } from "../../shared/record/channel-role";
import type { ColumnReading, ColumnText } from "./columns/column-reading";
import { isMissing, type NumberFormat, parseNumber } from "./number-format";

/**
 * The most that a pumped water system of a building or a small town can show, SI: 500 bar, 2 m3/s, 500 Hz or r/s, 2000 A, 5 MW, 150 C. Wide on
 * purpose: it only decides whether a mark may group thousands. Common practice, no source.
 */
const MOST: Partial<Record<ChannelRole, number>> = { pressure: 5e7, flow: 2, speed: 500, current: 2000, power: 5e6, temperature: 423 };

/** Ten centimetres of water: no pumped system stands below that for half of a log. Common practice, no source. */
const LEAST_PRESSURE = 1000;

/** Whether the median of a column could be real in this number format; columns of other roles always could. */
export function isPlausible(text: ColumnText, reading: ColumnReading, format: NumberFormat): boolean {
  const most = MOST[reading.role];
  if (most === undefined || reading.quantity === "none" || reading.raw !== null) return true;
  const values = text.sample
    .filter((cell) => !isMissing(cell))
    .map((cell) => parseNumber(cell, format))
    .filter((value) => !Number.isNaN(value))
    .sort((a, b) => a - b);
  const median = values[values.length >> 1] ?? 0;
  const si = Math.abs(median * reading.factor + reading.offset);
  return si <= most && (reading.role !== "pressure" || si === 0 || si >= LEAST_PRESSURE);
}
