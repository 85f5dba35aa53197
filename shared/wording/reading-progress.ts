import { formatNumber } from "../units/format-quantity";

/** "3 min", "40 s", "2 s": rough on purpose, since the rate of reading wanders. */
export function sayTimeLeft(seconds: number): string {
  if (!Number.isFinite(seconds) || seconds < 0) return "";
  if (seconds < 2) return "nearly done";
  if (seconds < 60) return `about ${Math.round(seconds < 10 ? seconds : Math.round(seconds / 5) * 5)} s left`;
  return `about ${Math.round(seconds / 60)} min left`;
}

/** A count with its noun, grouped as the reader writes numbers: "604,800 rows", "1 row". */
export function sayCount(count: number, one: string, many: string, locale: string | null): string {
  return `${formatNumber(count, 0, locale ?? "en")} ${count === 1 ? one : many}`;
}

const STEPS: readonly [limit: number, divisor: number, unit: string][] = [
  [1000, 1, "bytes"],
  [1e6, 1e3, "kB"],
  [1e9, 1e6, "MB"],
  [Number.POSITIVE_INFINITY, 1e9, "GB"],
];

/** Size of a file or of what is kept: "25.0 MB". */
export function saySize(bytes: number, locale: string | null): string {
  const [, divisor, unit] = STEPS.find(([limit]) => bytes < limit) ?? STEPS[3];
  return `${formatNumber(bytes / divisor, divisor === 1 || bytes / divisor >= 100 ? 0 : 1, locale)} ${unit}`;
}
