import type { UNIT_OPTIONS } from "../units/unit-choice";

type Kind = keyof typeof UNIT_OPTIONS;

export const UNIT_QUANTITY_WORDS: Readonly<Record<Kind, string>> = {
  pressure: "Pressure",
  flow: "Flow",
  volume: "Volume",
  length: "Length",
  temperature: "Temperature",
  power: "Power",
};

const LONG: ReadonlyMap<string, string> = new Map([
  ["pressure m", "m of water"],
  ["pressure ft", "ft of water"],
  ["flow gpm", "gpm (US)"],
  ["flow imp gpm", "gpm (imperial)"],
  ["volume gal", "gal (US)"],
  ["volume imp gal", "gal (imperial)"],
]);

/** A unit as the list of choices names it, where its symbol alone would leave a doubt. */
export const sayUnit = (kind: Kind, unit: string): string => LONG.get(`${kind} ${unit}`) ?? unit;
