import type { ThinTrace } from "../../shared/schemas/visit-parts";

/** The box that a small trace is drawn in; two units a column, so that it can be read and stays short. */
export const TRACE_BOX = { wide: 140, tall: 32 } as const;
const COLUMNS = 70;

/** Least to greatest pressure per column as an SVG path; gaps stay gaps. Empty without a pressure. */
export function tracePath(trace: ThinTrace): string {
  const pressure = trace.channels.find(({ role }) => role === "pressure");
  if (pressure === undefined || pressure.low.length === 0) return "";
  const columns = Math.min(COLUMNS, pressure.low.length);
  const low = new Array<number>(columns).fill(Number.POSITIVE_INFINITY);
  const high = new Array<number>(columns).fill(Number.NEGATIVE_INFINITY);
  pressure.low.forEach((value, i) => {
    const column = Math.floor((i * columns) / pressure.low.length);
    const top = pressure.high[i];
    if (value === null || top === null || top === undefined) return;
    low[column] = Math.min(low[column], value);
    high[column] = Math.max(high[column], top);
  });
  const least = low.reduce((a, b) => Math.min(a, b));
  const most = high.reduce((a, b) => Math.max(a, b));
  const { wide, tall } = TRACE_BOX;
  const y = (value: number) => Math.round(tall - 1 - ((value - least) / (most - least || 1)) * (tall - 2));
  const drawn = low.map((value, i) => (value > high[i] ? "" : `M${Math.round(((i + 0.5) * wide) / columns)} ${y(value)}V${y(high[i])}`));
  return drawn.join("");
}
