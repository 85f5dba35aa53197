import type { ChannelQuantity } from "../record/channel-role";
import { PASCAL_PER_PSI } from "./pressure";

/**
 * A unit of a logged quantity: SI = value * factor + offset. Pressure units name their reference only where the symbol does
 * ("psig", "bara"); a plain "psi" leaves gauge or absolute to the heading, the preamble or the person.
 */
export type Unit = {
  readonly symbol: string;
  readonly quantity: ChannelQuantity | "pressure";
  readonly factor: number;
  readonly offset: number;
  readonly aliases: readonly string[];
  readonly source: string;
};

const SP811 = "NIST SP 811, App. B.8";
const SI = "SI";
const EXACT = "defined";
const GALLON_US = 3.785411784e-3; // m3, 231 cubic inches exactly. NIST SP 811, App. B.8
const GALLON_IMPERIAL = 4.54609e-3; // m3, exact. NIST SP 811, App. B.8
const CUBIC_FOOT = 0.028316846592; // m3, exact international foot

const unit = (
  symbol: string,
  quantity: Unit["quantity"],
  factor: number,
  source: string,
  aliases: readonly string[] = [],
  offset = 0,
): Unit => ({
  symbol,
  quantity,
  factor,
  offset,
  aliases,
  source,
});

/** Each alias is claimed once. Matching is by `findUnit`: exact case first, then without case where only one unit answers. */
export const UNITS: readonly Unit[] = [
  unit("psi", "pressure", PASCAL_PER_PSI, SP811, ["lb/in2", "lbf/in2", "lbf/in²", "lb/in²", "lbs/in2", "pounds per square inch"]),
  unit("psig", "gaugePressure", PASCAL_PER_PSI, SP811, ["psi g", "psi(g)", "psi gauge", "psi gage"]),
  unit("psia", "absolutePressure", PASCAL_PER_PSI, SP811, ["psi a", "psi(a)", "psi abs", "psi absolute"]),
  unit("bar", "pressure", 1e5, SP811, ["bars"]),
  unit("barg", "gaugePressure", 1e5, SP811, ["bar g", "bar(g)", "bar gauge", "barü", "bar ü", "bar rel"]),
  unit("bara", "absolutePressure", 1e5, SP811, ["bar a", "bar(a)", "bar abs", "bar absolute"]),
  unit("mbar", "pressure", 100, SP811, ["millibar", "hPa", "hectopascal"]),
  unit("Pa", "pressure", 1, SI, ["pascal", "pascals"]),
  unit("kPa", "pressure", 1e3, SI, ["kilopascal", "kilopascals", "kpa"]),
  unit("kPag", "gaugePressure", 1e3, SI, ["kPa g", "kPa(g)", "kPa gauge"]),
  unit("kPaa", "absolutePressure", 1e3, SI, ["kPa a", "kPa(a)", "kPa abs"]),
  unit("MPa", "pressure", 1e6, SI, ["megapascal"]),
  unit("kgf/cm²", "pressure", 98066.5, SP811, ["kgf/cm2", "kg/cm2", "kg/cm²", "kp/cm2", "kp/cm²", "at (technical)"]),
  unit("mH2O", "pressure", 9806.65, SP811, [
    "m H2O",
    "mH₂O",
    "mWC",
    "m WC",
    "mwc",
    "mWS",
    "m WS",
    "mCE",
    "m.c.a.",
    "mca",
    "metre of water",
    "meter of water",
    "metres of water",
    "meters of water",
  ]),
  unit("ftH2O", "pressure", 2989.06692, SP811, ["ft H2O", "ftH₂O", "ft WC", "ftwc", "feet of water", "foot of water", "ft of water"]),
  unit("inH2O", "pressure", 249.08891, SP811, ["in H2O", "inH₂O", "inWC", "in WC", "inches of water"]),
  unit("inHg", "pressure", 3386.389, SP811, ["in Hg", "inches of mercury", '"Hg']),
  unit("mmHg", "pressure", 133.3224, SP811, ["mm Hg"]),
  unit("atm", "pressure", 101325, SP811, []),

  unit("gpm", "flow", GALLON_US / 60, SP811, [
    "gal/min",
    "GPM",
    "US gpm",
    "USgpm",
    "usgpm",
    "gpm US",
    "gpm (US)",
    "US gal/min",
    "gallons per minute",
    "gals/min",
    "g/min (gal)",
  ]),
  unit("gph", "flow", GALLON_US / 3600, SP811, ["gal/h", "gal/hr", "gallons per hour", "US gal/h"]),
  unit("imp gpm", "flow", GALLON_IMPERIAL / 60, SP811, [
    "igpm",
    "gpm imperial",
    "gpm (imp)",
    "gpm imp",
    "imperial gpm",
    "imp gal/min",
    "UK gpm",
    "gpm (UK)",
    "imperial gallons per minute",
  ]),
  unit("L/min", "flow", 1e-3 / 60, SP811, [
    "l/min",
    "lpm",
    "LPM",
    "L/mn",
    "l/mn",
    "lit/min",
    "litres/min",
    "liters/min",
    "litre/min",
    "liter/min",
    "dm3/min",
    "dm³/min",
    "litres per minute",
    "liters per minute",
  ]),
  unit("L/s", "flow", 1e-3, SI, ["l/s", "lps", "LPS", "l/sec", "L/sec", "dm3/s", "dm³/s", "litres per second", "liters per second"]),
  unit("L/h", "flow", 1e-3 / 3600, SP811, ["l/h", "lph", "LPH", "l/hr", "L/hr", "l/Std", "litres per hour", "liters per hour"]),
  unit("m³/h", "flow", 1 / 3600, SI, [
    "m3/h",
    "m^3/h",
    "m3/hr",
    "m³/hr",
    "m^3/hr",
    "cmh",
    "CMH",
    "cbm/h",
    "m3/Std",
    "cubic metres per hour",
    "cubic meters per hour",
  ]),
  unit("m³/s", "flow", 1, SI, ["m3/s", "m^3/s", "cms"]),
  unit("m³/min", "flow", 1 / 60, SI, ["m3/min", "m^3/min"]),
  unit("m³/d", "flow", 1 / 86400, SI, ["m3/d", "m3/day", "m³/day"]),
  unit("cfs", "flow", CUBIC_FOOT, SP811, ["ft3/s", "ft³/s", "cubic feet per second", "cu ft/s"]),
  unit("cfm", "flow", CUBIC_FOOT / 60, SP811, ["ft3/min", "ft³/min", "cu ft/min"]),
  unit("MGD", "flow", (GALLON_US * 1e6) / 86400, SP811, ["mgd", "million gallons per day"]),

  unit("gal", "volume", GALLON_US, SP811, ["US gal", "gallon", "gallons", "US gallons", "gals"]),
  unit("imp gal", "volume", GALLON_IMPERIAL, SP811, ["gal (imp)", "imperial gallons", "imperial gallon", "UK gal"]),
  unit("L", "volume", 1e-3, SI, ["l", "litre", "litres", "liter", "liters", "Liter", "ltr", "dm3", "dm³"]),
  unit("mL", "volume", 1e-6, SI, ["ml", "millilitre", "cc", "cm3", "cm³"]),
  unit("m³", "volume", 1, SI, ["m3", "m^3", "cbm", "cubic metre", "cubic metres", "cubic meter", "cubic meters"]),
  unit("ft³", "volume", CUBIC_FOOT, SP811, ["ft3", "cu ft", "cubic feet"]),

  unit("Hz", "frequency", 1, SI, ["hz", "hertz", "1/s"]),
  unit("rpm", "rotation", 1 / 60, SI, ["r/min", "rev/min", "1/min", "min-1", "min⁻¹", "U/min", "tr/min", "t/min", "giri/min"]),
  unit("%", "fraction", 0.01, EXACT, ["percent", "pct", "prozent", "% speed", "Prozent"]),

  unit("A", "electricCurrent", 1, SI, ["amp", "amps", "ampere", "Amps", "Ampere"]),
  unit("mA", "electricCurrent", 1e-3, SI, ["milliamp", "milliamps", "milliampere"]),
  unit("V", "voltage", 1, SI, ["volt", "volts", "Volt", "VDC", "V DC"]),
  unit("mV", "voltage", 1e-3, SI, ["millivolt", "millivolts"]),
  unit("W", "power", 1, SI, ["watt", "watts", "Watt"]),
  unit("kW", "power", 1e3, SI, ["kilowatt", "kilowatts", "KW"]),
  unit("hp", "power", 745.6998715822702, SP811, ["HP", "horsepower"]),
  unit("PS", "power", 735.49875, SP811, ["metric hp", "cv", "CV"]),

  unit("°C", "temperature", 1, SP811, ["C", "degC", "deg C", "ºC", "℃", "Celsius", "celsius", "grad C", "Grad C"], 273.15),
  unit("°F", "temperature", 1 / 1.8, SP811, ["F", "degF", "deg F", "ºF", "℉", "Fahrenheit"], 459.67 / 1.8),
  unit("K", "temperature", 1, SI, ["kelvin", "Kelvin"]),

  unit("m", "length", 1, SI, ["metre", "metres", "meter", "meters", "mètre", "metri", "metro"]),
  unit("cm", "length", 0.01, SI, ["centimetre", "centimeter"]),
  unit("mm", "length", 1e-3, SI, ["millimetre", "millimeter"]),
  unit("ft", "length", 0.3048, SP811, ["foot", "feet", "'"]),
  unit("in", "length", 0.0254, SP811, ["inch", "inches", '"']),
];

const tidy = (text: string) => text.trim().replace(/\s+/g, " ");
const EXACTLY = new Map(UNITS.flatMap((u) => [u.symbol, ...u.aliases].map((name) => [tidy(name), u] as const)));
const CASELESS = caseless();

function caseless(): ReadonlyMap<string, Unit | null> {
  const found = new Map<string, Unit | null>();
  for (const [name, u] of EXACTLY) {
    const lower = name.toLowerCase();
    found.set(lower, found.has(lower) && found.get(lower) !== u ? null : u);
  }
  return found;
}

/** The unit a text names, or null. "MPA" is refused where case alone would have to decide between two units. */
export function findUnit(text: string): Unit | null {
  const name = tidy(text);
  return EXACTLY.get(name) ?? CASELESS.get(name.toLowerCase()) ?? null;
}

export const toSI = (value: number, u: Unit): number => value * u.factor + u.offset;
export const fromSI = (value: number, u: Unit): number => (value - u.offset) / u.factor;
