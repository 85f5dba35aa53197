import type { ChannelRole } from "../../../shared/record/channel-role";
import type { Unit } from "../../../shared/units/unit-table";
import { type ColumnValues, twoLevels } from "./column-values";
import { isLoopInAmperes } from "./raw-signal";
import { GENERIC_WORDS, ID_WORDS, MACHINE_WORDS, OTHER_WORDS, PLACE_OR_OTHER_WORDS, ROLE_WORDS, SIGNAL_WORDS } from "./role-words";

type UnitQuantity = Unit["quantity"];

const FITS: Readonly<Record<ChannelRole, readonly UnitQuantity[]>> = {
  time: [],
  pressure: ["pressure", "gaugePressure", "absolutePressure", "length"],
  flow: ["flow"],
  speed: ["frequency", "rotation"],
  current: ["electricCurrent"],
  power: ["power"],
  running: ["state"],
  temperature: ["temperature"],
  level: ["length"],
  volume: ["volume"],
  other: [],
};

const ROLE_OF_UNIT: Partial<Record<UnitQuantity, ChannelRole>> = {
  pressure: "pressure",
  gaugePressure: "pressure",
  absolutePressure: "pressure",
  flow: "flow",
  frequency: "speed",
  rotation: "speed",
  electricCurrent: "current",
  power: "power",
  temperature: "temperature",
  volume: "volume",
};

export type RoleGuess = {
  readonly role: ChannelRole;
  readonly by: "words" | "unit" | "both" | "values" | "rows" | "none";
  readonly generic: boolean;
};

/** The role that folded words and a unit speak for; words and unit that agree beat words alone, words alone beat the unit alone. */
export function guessRole(words: string, unit: Unit | null, values: ColumnValues): RoleGuess {
  const generic = GENERIC_WORDS.test(words);
  // a flow in hertz is the frequency of its meter, whatever word stands for it
  const best =
    unit?.quantity === "frequency" && METER.test(words) ? ({ role: "flow", fits: true } as const) : bestByWords(words, unit, values);
  if (best?.role === "pressure" && AIR.test(words) && isWeather(unit, values)) return { role: "other", by: "words", generic: false };
  if ((ID_WORDS.test(words) || /^n[°º]?o? /.test(words)) && unit === null && isIdentity(words, values))
    return { role: "other", by: "words", generic: false };
  if (OTHER_WORDS.test(words)) return { role: "other", by: "words", generic: false };
  if ((best === null || best.role === "running") && PLACE_OR_OTHER_WORDS.test(words)) return { role: "other", by: "words", generic: false };
  if (SIGNAL_WORDS.test(words) && !(best !== null && isSignal(unit, values))) return { role: "other", by: "words", generic: false };
  // "Ext. power (V)" is a supply
  if (best?.role === "power" && unit?.quantity === "voltage") return { role: "other", by: "words", generic: false };
  if (best !== null) return { role: best.role, by: best.fits ? "both" : "words", generic: false };
  const byUnit = unit === null ? undefined : ROLE_OF_UNIT[unit.quantity];
  if (byUnit !== undefined) return { role: byUnit, by: "unit", generic };
  if ((values.binary || twoLevels(values) !== null) && unit === null && (MACHINE_WORDS.test(words) || STANDS.test(words)))
    return { role: "running", by: "values", generic: false };
  return { role: "other", by: "none", generic };
}

/** A meter or a sensor of flow, by its name. */
const METER =
  /\b(?:flow|water) ?(?:sensor|meter|transmitter)\b|\bdurchfluss(?:sensor|messer|geber|zahler)\b|\b(?:capteur de )?debitmetre\b|\bcapteur de debit\b|\bcaudalimetro\b|\bsensor de (?:caudal|vazao)\b|\bmedidor de (?:caudal|vazao)\b|\bflussimetro\b|\bsensore di portata\b|\bdebietmeter\b|\bflowsensor\b|\bturbine\b/;

/** "Pressure sensor ID" over one whole number, or over codes: no reading. A channel's own heading ("Channel 1") names what it does not measure either, but stands over readings. */
const isIdentity = (words: string, { sorted, low, high }: ColumnValues): boolean =>
  sorted.length > 0 && sorted.every(Number.isInteger) && (low === high || /\bcodes?\b/.test(words)) && !GENERIC_WORDS.test(words);

const AIR = /\bair\b|\bpression (?:de l )?air\b|\bp air\b|\baria\b|\baire\b/;

/** Where the pressure of the air itself lies from the sea to 1,500 m; the air in a tank stands above it. Common practice, no source. */
function isWeather(unit: Unit | null, { low, high }: ColumnValues): boolean {
  if (unit === null || !unit.quantity.toLowerCase().endsWith("pressure")) return false;
  return low * unit.factor > 84_000 && high * unit.factor < 108_000;
}

const ON =
  /\bon\b|\blauft\b|\blaeuft\b|betrieb\b|\bein\b|\baan\b|\bmarche\b|\bmarcha\b|\bmarcia\b|\bligad[ao]\b|\bencendid[ao]\b|\bacces[ao]\b|\brun/;
const OFF =
  /\boff\b|\bstop(?:ped)?\b|\baus\b|\barret(?:ee?)?\b|\bparad[ao]\b|\buit\b|\bspent[ao]\b|\bferm[ao]\b|\bdesligad[ao]\b|\bapagad[ao]\b|\bdetenid[ao]\b|\bgestoppt\b|\bgestopt\b|\bstandstill\b|\bstillstand\b|\bidle\b|\bsteht\b/;
const NOT = /\b(?:not|nicht|kein|non|pas|no|nao|niet)\b/;
/** "Not running" alone names a machine that stands. */
const STANDS = new RegExp(`${NOT.source}.*(?:${ON.source})`);

/** Whether 1 under a folded heading says that the machine stands ("Pump stopped", "Not running"). "Pump on/off" says both, and 1 is on. */
export const saysOff = (words: string): boolean => (OFF.test(words) && !ON.test(words)) || STANDS.test(words);

/** Whether a folded heading says the state that its cells affirm or deny ("Pump on"). */
export const saysOn = (words: string): boolean => ON.test(words) && !OFF.test(words);

function bestByWords(words: string, unit: Unit | null, values: ColumnValues): { role: ChannelRole; fits: boolean } | null {
  let best: { role: ChannelRole; score: number; fits: boolean } | null = null;
  for (const [role, pattern, weight] of ROLE_WORDS) {
    const match = pattern.exec(words);
    if (match === null) continue;
    const fits = unit !== null && FITS[role].includes(unit.quantity);
    const byUnit = fits ? 4 : unit === null ? 0 : canBe(role, unit, values) ? -0.5 : -4;
    // the later of two nouns names the quantity ("flow temperature")
    const score = weight + match.index / 1000 + byUnit + (unit === null ? byValues(role, values) : 0);
    if (score > 0 && (best === null || score > best.score)) best = { role, score, fits };
  }
  return best;
}

/** "Total flow" that only rises is a counter, a state has few values, "Pump on" is 0 or 1. */
function byValues(role: ChannelRole, values: ColumnValues): number {
  if (role === "volume") return values.rising ? 2 : 0;
  if (role === "running") return values.binary ? 2 : values.numbers.length > 0 && twoLevels(values) === null ? -3 : 0;
  return values.binary && values.numbers.length > 20 && values.low !== values.high ? -1.5 : 0;
}

const isSignal = (unit: Unit | null, values: ColumnValues) =>
  unit !== null && (unit.quantity === "voltage" || unit.symbol === "mA" || unit.symbol === "µA" || isLoopInAmperes(unit, values));

/** Raw signals and per cent can stand for anything measured; a head in metres can be a pressure or a level. */
function canBe(role: ChannelRole, unit: Unit, values: ColumnValues): boolean {
  if (role === "running") return unit.quantity === "fraction" && twoLevels(values) !== null;
  if (unit.quantity === "fraction") return role !== "volume";
  return isSignal(unit, values) || (role === "level" && ["pressure", "gaugePressure", "volume"].includes(unit.quantity));
}
