import type { ChannelRole } from "../../../shared/record/channel-role";
import { findUnit, type Unit } from "../../../shared/units/unit-table";

/** Whose units the rest of the file speaks; null where nothing shows it. */
export type UnitSystem = "us" | "metric" | null;

const US = new Set(["psi", "psig", "psia", "gpm", "gph", "gal", "°F", "hp", "ft", "ftH2O", "in", "cfs", "cfm", "inHg", "inH2O"]);
const METRIC = new Set([
  "bar",
  "barg",
  "bara",
  "kPa",
  "MPa",
  "mbar",
  "L/min",
  "L/s",
  "L/h",
  "m³/h",
  "m³",
  "L",
  "°C",
  "m",
  "mH2O",
  "kgf/cm²",
]);

/** Counts the units of the file's other columns. */
export function unitSystem(units: readonly (Unit | null)[]): UnitSystem {
  const us = units.filter((u) => u !== null && US.has(u.symbol)).length;
  const metric = units.filter((u) => u !== null && METRIC.has(u.symbol)).length;
  return us === metric ? null : us > metric ? "us" : "metric";
}

const OPTIONS: Partial<Record<ChannelRole, readonly string[]>> = {
  pressure: ["bar", "psi", "kPa", "mH2O", "mbar", "MPa", "kgf/cm²", "ftH2O", "Pa"],
  flow: ["L/min", "m³/h", "gpm", "L/s", "L/h", "imp gpm"],
  speed: ["Hz", "%", "rpm"],
  current: ["A", "mA"],
  power: ["kW", "W", "hp"],
  temperature: ["°C", "°F", "K"],
  level: ["m", "cm", "%", "ft", "in"],
  volume: ["m³", "L", "gal", "imp gal", "ft³"],
};

/** Symbols that can stand for a role, the likeliest first; empty for roles without a unit. */
export function unitOptions(role: ChannelRole, likeliest: string | null): readonly string[] {
  const options = OPTIONS[role] ?? [];
  return likeliest === null ? options : [likeliest, ...options.filter((o) => o !== likeliest)];
}

/**
 * The likeliest unit of a column that names none, from the size of its values and the units beside it; a guess to be asked.
 * The sizes are those of a small pumped system (1 to 16 bar, up to some 100 L/min); common practice, no source.
 */
export function proposeUnit(role: ChannelRole, high: number, system: UnitSystem): Unit | null {
  const symbol = proposal(role, high, system);
  return symbol === null ? null : findUnit(symbol);
}

function proposal(role: ChannelRole, high: number, system: UnitSystem): string | null {
  switch (role) {
    case "pressure":
      return pressure(high, system);
    case "flow":
      return system === "us" ? "gpm" : high <= 12 && system === "metric" ? "m³/h" : "L/min";
    case "speed":
      return high > 110 ? "rpm" : high > 70 ? "%" : "Hz";
    case "current":
      return "A";
    case "power":
      return high > 100 ? "W" : "kW";
    case "temperature":
      return system === "us" || high > 100 ? "°F" : "°C";
    case "level":
      return system === "us" ? "ft" : high > 20 ? "%" : "m";
    case "volume":
      return system === "us" ? "gal" : "m³";
    default:
      return null;
  }
}

function pressure(high: number, system: UnitSystem): string {
  if (high > 20000) return "Pa";
  if (high > 2000 && system !== "us") return "mbar";
  if (system === "us") return "psi";
  if (high <= 20) return "bar";
  if (system === "metric") return high > 90 ? "kPa" : "mH2O";
  return high > 250 ? "kPa" : "psi";
}
