import { findUnit, fromSI } from "../../shared/units/unit-table";
import type { SimulatedVisit } from "./simulate-site";
import type { LoggedChannel } from "./site-model";
import { CHANNEL_KINDS } from "./visit-record";

/** Unit and decimals in which a channel is written. */
export type WrittenAs = Readonly<Record<LoggedChannel, { readonly unit: string; readonly decimals: number }>>;

export const PSI_AND_GPM: WrittenAs = {
  pressure: { unit: "psi", decimals: 2 },
  "pressure-at-pump": { unit: "psi", decimals: 2 },
  flow: { unit: "gpm", decimals: 2 },
  speed: { unit: "%", decimals: 1 },
  running: { unit: "", decimals: 0 },
  current: { unit: "A", decimals: 2 },
  power: { unit: "kW", decimals: 3 },
  temperature: { unit: "°C", decimals: 1 },
};

/**
 * A simulated visit as plain CSV: one heading row, "Time" as local date and time (or elapsed seconds), channels with their unit.
 * @throws RangeError where a unit is unknown
 */
export function visitCsv(visit: SimulatedVisit, writtenAs: WrittenAs = PSI_AND_GPM): string {
  const { samples, site } = visit;
  const columns = [...samples.columns].map(([channel, values]) => {
    const { unit: symbol, decimals } = writtenAs[channel];
    const unit = symbol === "" ? null : findUnit(symbol);
    if (symbol !== "" && unit === null) throw new RangeError(`visitCsv: unit ${symbol}`);
    const heading = symbol === "" ? CHANNEL_KINDS[channel].heading : `${CHANNEL_KINDS[channel].heading} (${symbol})`;
    return { heading, write: (i: number) => (unit === null ? values[i] : fromSI(values[i], unit)).toFixed(decimals), values };
  });
  const lines = [["Time", ...columns.map((column) => column.heading)].join(",")];
  const whole = Number.isInteger(site.logger.interval) && site.logger.jitter === 0;
  for (let i = 0; i < samples.count; i++) {
    let line = writtenTime(visit, samples.times[i], whole);
    for (const column of columns) line += `,${Number.isNaN(column.values[i]) ? "" : column.write(i)}`;
    lines.push(line);
  }
  return `${lines.join("\n")}\n`;
}

function writtenTime(visit: SimulatedVisit, t: number, whole: boolean): string {
  const { clock } = visit.site.logger;
  if (clock.kind === "elapsed") return t.toFixed(whole ? 0 : 3);
  const text = new Date(Math.round((clock.epoch + t) * 1000)).toISOString();
  return `${text.slice(0, 10)} ${text.slice(11, whole ? 19 : 23)}`;
}
