import type { ChannelQuantity, ChannelRole } from "../../../shared/record/channel-role";
import type { FileLayout } from "../../../shared/record/file-layout";
import { UNITS } from "../../../shared/units/unit-table";

type TableQuantity = ChannelQuantity | "pressure";

/** Quantities a role can be logged in; raw signals can stand for several roles. */
const QUANTITIES: Readonly<Record<ChannelRole, readonly TableQuantity[]>> = {
  time: [],
  pressure: ["pressure", "gaugePressure", "absolutePressure", "electricCurrent", "voltage"],
  flow: ["flow", "electricCurrent", "voltage"],
  speed: ["frequency", "rotation", "fraction", "electricCurrent", "voltage"],
  current: ["electricCurrent", "voltage"],
  power: ["power"],
  running: [],
  temperature: ["temperature", "electricCurrent", "voltage"],
  level: ["length", "fraction", "electricCurrent", "voltage"],
  volume: ["volume"],
  other: [],
};

/** Raw signals come in milliamperes and volts. */
const RAW = new Set(["mA", "V"]);
const isRawQuantity = (quantity: TableQuantity) => quantity === "electricCurrent" || quantity === "voltage";

/** Units to offer for a column, likeliest first: what the reader proposed where it fits the role, then the table's. None where a role has no unit. */
export function unitChoices(column: Pick<FileLayout["columns"][number], "role" | "unit" | "unitOptions">): readonly string[] {
  const fitting = QUANTITIES[column.role];
  if (fitting.length === 0) return [];
  const table = UNITS.filter(
    (unit) => fitting.includes(unit.quantity) && (column.role === "current" || !isRawQuantity(unit.quantity) || RAW.has(unit.symbol)),
  ).map((unit) => unit.symbol);
  const known = new Set(UNITS.map((unit) => unit.symbol));
  const proposed = column.unitOptions.filter((unit) => table.includes(unit) || !known.has(unit));
  return [...new Set([...(column.unit === null ? [] : [column.unit]), ...proposed, ...table])];
}
