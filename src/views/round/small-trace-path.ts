import type { ThinTrace } from "../../../shared/schemas/visit-parts";

/** Least to greatest pressure per column as an SVG path; gaps stay gaps. Empty without a pressure. */
export function smallTracePath(trace: ThinTrace, wide: number, tall: number): string {
  const pressure = trace.channels.find(({ role }) => role === "pressure");
  if (pressure === undefined || pressure.low.length === 0) return "";
  const { low, high } = pressure;
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  low.forEach((value, i) => {
    if (value !== null) least = Math.min(least, value);
    const top = high[i];
    if (top !== null && top !== undefined) most = Math.max(most, top);
  });
  if (!(least <= most)) return "";
  const y = (value: number) => (tall - 1 - ((value - least) / (most - least || 1)) * (tall - 2)).toFixed(1);
  let path = "";
  for (let i = 0; i < low.length; i++) {
    const [a, b] = [low[i], high[i]];
    if (a === null || b === null) continue;
    path += `M${(((i + 0.5) * wide) / low.length).toFixed(1)} ${y(a)}V${y(b)}`;
  }
  return path;
}
