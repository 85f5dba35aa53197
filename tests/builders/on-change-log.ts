import { seededRandom } from "../../analysis/numerics/random";
import { iso, MAY_6, told } from "./log-rows";

/** Closed forms, written by the very rule of either logger: common practice of change-of-value reporting, no source. */
export type Signals = readonly (readonly number[])[];
export type Row = { readonly t: number; readonly cells: readonly (number | null)[] };

/** Whether a logger on change leaves the cells of a row blank that did not change, or writes what it saw of all. */
export type Cells = "changed" | "all";

/** A row is written where a channel lies its dead band from what was written of it before; whole, too, by the beat, s. A scan a second. */
export function onChange(signals: Signals, bands: readonly number[], beat = Number.POSITIVE_INFINITY, cells: Cells = "changed"): Row[] {
  const held = signals.map((signal) => signal[0]);
  const rows: Row[] = [{ t: 0, cells: [...held] }];
  for (let t = 1; t < signals[0].length; t++) {
    const isBeat = t - rows[rows.length - 1].t >= beat;
    const changed = signals.map((signal, c) => Math.abs(signal[t] - held[c]) >= bands[c] * 0.999);
    if (!isBeat && !changed.includes(true)) continue;
    const written = signals.map((signal, c) => (isBeat || cells === "all" || changed[c] ? signal[t] : null));
    written.forEach((cell, c) => {
      if (cell !== null) held[c] = cell;
    });
    rows.push({ t, cells: written });
  }
  return rows;
}

export const eachSecond = (signals: Signals): Row[] => signals[0].map((_, t) => ({ t, cells: signals.map((signal) => signal[t]) }));

const FROM = MAY_6 + 36_000;
const HEADINGS = ["Pressure (kPa)", "Flow (L/min)", "Pump running"];
export const readRows = (rows: readonly Row[], headings: readonly string[] = HEADINGS) =>
  told(
    [
      `Time,${headings.join(",")}`,
      ...rows.map(({ t, cells }) => `${iso(new Date((FROM + t) * 1000))},${cells.map((cell) => cell ?? "").join(",")}`),
      "",
    ].join("\n"),
  );

/** A saw-tooth of pressure with noise, the draws that make it, and the pump's contact; each at every second. Digits of 0.1 kPa and 1 L/min. */
export function plant(seconds: number, noise = 0.15, seed = 1): number[][] {
  const random = seededRandom(seed);
  const [pressures, flows, contact]: number[][] = [[], [], []];
  let [p, runs] = [400, false];
  for (let t = 0; t < seconds; t++) {
    const draw = (t * 7) % 1900 < 900 ? 10 + ((t >> 8) % 5) * 4 : 0;
    p += (runs ? 2.1 : 0) - draw / 25;
    runs = p < 300 ? true : p > 450 ? false : runs;
    pressures.push(Math.round((p + noise * random.normal()) * 10) / 10);
    flows.push(draw);
    contact.push(runs ? 1 : 0);
  }
  return [pressures, flows, contact];
}
