/** The units one person reads in. Kept per person; nothing in an analysis depends on it. */
export type UnitChoice = {
  readonly pressure: "psi" | "bar" | "kPa" | "m" | "ft";
  readonly flow: "gpm" | "imp gpm" | "L/min" | "L/s" | "m³/h";
  readonly volume: "gal" | "imp gal" | "L" | "m³";
  readonly length: "ft" | "m";
  readonly temperature: "°F" | "°C";
  readonly power: "hp" | "kW";
  /** BCP 47 tag for the decimal mark and the grouping; null writes a point and no grouping, the same on every machine. */
  readonly locale: string | null;
};

export const US_UNITS: UnitChoice = {
  pressure: "psi",
  flow: "gpm",
  volume: "gal",
  length: "ft",
  temperature: "°F",
  power: "hp",
  locale: null,
};
export const METRIC_UNITS: UnitChoice = {
  pressure: "bar",
  flow: "L/min",
  volume: "L",
  length: "m",
  temperature: "°C",
  power: "kW",
  locale: null,
};

export const UNIT_OPTIONS = {
  pressure: ["psi", "bar", "kPa", "m", "ft"],
  flow: ["gpm", "imp gpm", "L/min", "L/s", "m³/h"],
  volume: ["gal", "imp gal", "L", "m³"],
  length: ["ft", "m"],
  temperature: ["°F", "°C"],
  power: ["hp", "kW"],
} as const satisfies { [K in Exclude<keyof UnitChoice, "locale">]: readonly UnitChoice[K][] };
