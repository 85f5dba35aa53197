import type { ChannelQuantity } from "../record/channel-role";
import { readFlowUnit } from "./flow-unit";
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

const row = (symbol: string, quantity: Unit["quantity"], factor: number, source: string, aliases = "", offset = 0): Unit => ({
  symbol,
  quantity,
  factor,
  offset,
  aliases: aliases === "" ? [] : aliases.split("|"),
  source,
});

/**
 * Each alias is claimed once. Matching is by `findUnit`: exact case first, then without case where only one unit answers. Plain gpm is US.
 * Aliases in English, German, French, Spanish, Portuguese, Italian and Dutch are common practice, no source.
 */
export const UNITS: readonly Unit[] = [
  row(
    "psi",
    "pressure",
    PASCAL_PER_PSI,
    SP811,
    "lb/in2|lbf/in2|lbf/in²|lb/in²|lbs/in2|lbs/in²|lbs/sq in|lbs/sq.in|lbs/sq.in.|lb per sq in|lbs per sq in|lbf/sq in|lb/sq in|lbf/sq.in|lb/sq.in|pounds per square inch|PSI|p.s.i.|#/in2|psid",
  ),
  row("psig", "gaugePressure", PASCAL_PER_PSI, SP811, "psi g|psi(g)|psi (g)|psi gauge|psi gage|psi-g|psi_g|PSIG"),
  row("psia", "absolutePressure", PASCAL_PER_PSI, SP811, "psi a|psi(a)|psi (a)|psi abs|psi absolute|psi-a|psi_a|PSIA"),
  row("bar", "pressure", 1e5, SP811, "bars|Bar|BAR|bares|bari|bard|daN/cm2|daN/cm²"),
  row(
    "barg",
    "gaugePressure",
    1e5,
    SP811,
    "bar g|bar(g)|bar (g)|bar gauge|barü|bar ü|bar(ü)|bar (ü)|bar rel|bar rel.|bar relativ|bar Überdruck|barUe|bar_g|bar-g|barR|bar relatif|bar relativi|bar relativos|bar overdruk|bar eff|bar man",
  ),
  row(
    "bara",
    "absolutePressure",
    1e5,
    SP811,
    "bar a|bar(a)|bar (a)|bar abs|bar abs.|bar(abs)|bar absolute|bar absolut|bar absolu|bar absoluto|bar assoluti|bar ass|bar absoluut|bar_a|bar-a",
  ),
  row("mbar", "pressure", 100, SP811, "millibar|mb|millibars|milibar|milibares|millibari"),
  row("dbar", "pressure", 1e4, SP811, "decibar|decibars"),
  row("hPa", "pressure", 100, SI, "hectopascal|hectopascals|Hektopascal"),
  row("Pa", "pressure", 1, SI, "pascal|pascals|N/m2|N/m²|pascales|pascali"),
  row("kPa", "pressure", 1e3, SI, "kilopascal|kilopascals|kpa|KPa|KPA|Kpa|kilopascales|kN/m2|kN/m²"),
  row("kPag", "gaugePressure", 1e3, SI, "kPa g|kPa(g)|kPa (g)|kPa gauge|kPa_g|kPa-g|kPa rel"),
  row("kPaa", "absolutePressure", 1e3, SI, "kPa a|kPa(a)|kPa (a)|kPa abs|kPa absolute|kPa_a|kPa-a"),
  row("MPa", "pressure", 1e6, SI, "megapascal|megapascals|Mpa|N/mm2|N/mm²|MN/m2"),
  row(
    "kgf/cm²",
    "pressure",
    98066.5,
    SP811,
    "kgf/cm2|kg/cm2|kg/cm²|kp/cm2|kp/cm²|Kg/cm2|Kg/cm²|KG/CM2|kgf/cm^2|kg/cm^2|kgcm2|kgfcm2|kilopond/cm2|at (technical)|at|kgf/sq.cm|kg/sq cm",
  ),
  row(
    "mH2O",
    "pressure",
    9806.65,
    SP811,
    "m H2O|mH₂O|m H₂O|mWC|m WC|m wc|mWS|m WS|mCE|m CE|m.c.e.|mce|m.c.a.|mca|m c.a.|mcda|mH20|m H20|m water|metre of water|meter of water|metres of water|meters of water|Meter Wassersäule|mètres de colonne d'eau|metros de columna de agua|metros de coluna de água|metri di colonna d'acqua|m.c.d'a.|meter waterkolom|mwk|mwater|m head|m of head|metres head|meters head",
  ),
  row("cmH2O", "pressure", 98.0665, SP811, "cm H2O|cmH₂O|cmWC|cmWS|cm WS|cmCE"),
  row("mmH2O", "pressure", 9.80665, SP811, "mm H2O|mmH₂O|mmWC|mmWS|mm WS|mmCE"),
  row(
    "ftH2O",
    "pressure",
    2989.06692,
    SP811,
    "ft H2O|ftH₂O|ft H₂O|ft WC|ftwc|ftWC|ftH20|feet of water|foot of water|ft of water|ft water|feet of head|ft head|ft of head|feet head|ft hd",
  ),
  row("inH2O", "pressure", 249.08891, SP811, 'in H2O|inH₂O|inWC|in WC|inches of water|inches water|in. w.c.|iwc|"H2O|"WC|in water'),
  row("inHg", "pressure", 3386.389, SP811, 'in Hg|inches of mercury|"Hg|in. Hg|inHG|inches Hg'),
  row("mmHg", "pressure", 133.3224, SP811, "mm Hg|mmHG|millimetres of mercury"),
  row("Torr", "pressure", 133.3224, SP811, "torr"),
  row("atm", "pressure", 101325, SP811, "atmosphere|atmospheres|Atm"),

  row(
    "gpm",
    "flow",
    GALLON_US / 60,
    SP811,
    "gal/min|GPM|Gpm|US gpm|USgpm|usgpm|gpm US|gpm (US)|gpm(US)|US gal/min|gal (US)/min|gal(US)/min|gallons per minute|gallons/min|gallon/min|gals/min|gal per min|gal/mn|g.p.m.|g/min (gal)|US gallons per minute|usgal/min|US_gpm|gpm_us|galones/min|galones por minuto|gal min",
  ),
  row("gph", "flow", GALLON_US / 3600, SP811, "gal/h|gal/hr|gallons per hour|US gal/h|US gph|gallons/hour|gallons/hr"),
  row("gpd", "flow", GALLON_US / 86400, SP811, "gal/d|gal/day|gallons per day|gallons/day"),
  row(
    "imp gpm",
    "flow",
    GALLON_IMPERIAL / 60,
    SP811,
    "igpm|IGPM|gpm imperial|gpm (imperial)|gpm (imp)|gpm imp|gpm(imp)|imperial gpm|imp gal/min|imp. gal/min|imp. gpm|Imp GPM|gal (imp)/min|gal(imp)/min|gal/min imp|gal/min (imp)|UK gpm|gpm (UK)|gpm UK|UK gal/min|ukgpm|impgpm|imperial gallons per minute|imperial gal/min|imperial gallons/min|imp_gpm|gpm_imp|IMP_GPM",
  ),
  row("imp gph", "flow", GALLON_IMPERIAL / 3600, SP811, "igph|imp gal/h|imperial gallons per hour"),
  row(
    "L/min",
    "flow",
    1e-3 / 60,
    SP811,
    "l/min|lpm|LPM|Lpm|L/mn|l/mn|L/minute|l/minute|lit/min|ltr/min|Ltr/min|Lt/min|lt/min|litres/min|liters/min|litre/min|liter/min|litros/min|litri/min|Liter/min|litres/mn|litros por minuto|litri al minuto|litres par minute|Liter pro Minute|liter per minuut|dm3/min|dm³/min|l.min-1|l min-1|L min-1|l·min⁻¹|L·min⁻¹|l/Min|l/Min.|l/min.|L/Min|l/1'|litres per minute|liters per minute|litre per minute|liter per minute|slpm|L_min|l_min|Lmin|L per min|l per min|litres/minute|liters/minute|l p min",
  ),
  row(
    "L/s",
    "flow",
    1e-3,
    SI,
    "l/s|lps|LPS|l/sec|L/sec|l/sek|l/seg|dm3/s|dm³/s|litres per second|liters per second|litres/s|liters/s|liter/s|litros/s|litri/s|Liter/s|L/Sek|l/Sek|l.s-1|l s-1|L s-1|L·s⁻¹|l·s⁻¹|litres/sec|litros por segundo|litri al secondo|ltr/s|lt/s|Lt/s|L_s|l_s|lit/s",
  ),
  row(
    "L/h",
    "flow",
    1e-3 / 3600,
    SP811,
    "l/h|lph|LPH|l/hr|L/hr|l/Std|l/Std.|L/Std|l/std|litres per hour|liters per hour|litres/h|liters/h|liter/h|litros/h|litri/h|Liter/h|l/heure|l/u|l/uur|l/hora|l/ora|dm3/h|dm³/h|l.h-1|L·h⁻¹|ltr/h|lt/h",
  ),
  row("hL/h", "flow", 0.1 / 3600, SI, "hl/h|hectolitres per hour|Hektoliter/h"),
  row("L/d", "flow", 1e-3 / 86400, SP811, "l/d|L/day|l/day|litres per day|liters per day|l/Tag|l/j|l/jour"),
  row("mL/min", "flow", 1e-6 / 60, SP811, "ml/min|cc/min|cm3/min|cm³/min"),
  row("mL/s", "flow", 1e-6, SI, "ml/s|cm3/s|cm³/s"),
  row(
    "m³/h",
    "flow",
    1 / 3600,
    SI,
    "m3/h|m^3/h|m3/hr|m³/hr|m^3/hr|m**3/h|cmh|CMH|m3h|m3ph|cbm/h|cbm/Std|m3/Std|m³/Std|m3/Std.|m³/Std.|m3/std|m3/heure|m³/heure|m3/hora|m³/hora|m3/ora|m³/ora|m3/u|m³/u|m3/uur|m³/uur|m3/hour|m³/hour|mc/h|mc/ora|Nm3/h|M3/H|m3.h-1|m3 h-1|m³ h⁻¹|m³·h⁻¹|cu m/h|cu.m/h|kubikmeter/h|cubic metres per hour|cubic meters per hour|m3 per hour|m_3_h|m3_h|m³_h|m3/hod|kL/h|kl/h|kL/hr",
  ),
  row("m³/s", "flow", 1, SI, "m3/s|m^3/s|cms|m3/sec|m³/sec|m3/seg|m³/seg|m3s|mc/s|cumecs|cumec|cubic metres per second|m³·s⁻¹"),
  row("m³/min", "flow", 1 / 60, SI, "m3/min|m^3/min|cmm|CMM|m3/mn|mc/min|cubic metres per minute"),
  row("m³/d", "flow", 1 / 86400, SI, "m3/d|m3/day|m³/day|m^3/d|m3/j|m³/j|m3/jour|m3/Tag|m³/Tag|m3/día|m3/dia|m3/giorno|m3/dag|cmd|CMD"),
  row("ML/d", "flow", 1e3 / 86400, SI, "MLD|ML/day|megalitres per day|Ml/d"),
  row("cfs", "flow", CUBIC_FOOT, SP811, "ft3/s|ft³/s|CFS|cubic feet per second|cu ft/s|cu.ft/s|ft^3/s|cusec|cusecs"),
  row("cfm", "flow", CUBIC_FOOT / 60, SP811, "ft3/min|ft³/min|CFM|cu ft/min|cu.ft/min|ft^3/min|cubic feet per minute"),
  row("cfh", "flow", CUBIC_FOOT / 3600, SP811, "ft3/h|ft³/h|CFH|cu ft/h|ft3/hr"),
  row("MGD", "flow", (GALLON_US * 1e6) / 86400, SP811, "mgd|Mgal/d|million gallons per day|Mgal/day"),

  row(
    "gal",
    "volume",
    GALLON_US,
    SP811,
    "US gal|US gals|USG|usg|gallon|gallons|US gallon|US gallons|gals|Gal|gal (US)|gal(US)|gal US|gallons US|galones|galón|galloni|gallonen",
  ),
  row("kgal", "volume", GALLON_US * 1e3, SP811, "1000 gal|Kgal|thousand gallons|gal x1000|x1000 gal"),
  row(
    "imp gal",
    "volume",
    GALLON_IMPERIAL,
    SP811,
    "gal (imp)|gal(imp)|gal imp|imp. gal|imperial gallons|imperial gallon|imperial gal|UK gal|gal (UK)|UK gallons|imp gallons|igal",
  ),
  row("L", "volume", 1e-3, SI, "l|litre|litres|liter|liters|Liter|Litre|Litres|ltr|Ltr|lt|Lt|lts|ltrs|lit|litro|litros|litri|dm3|dm³"),
  row("hL", "volume", 0.1, SI, "hl|hectolitre|Hektoliter|ettolitri"),
  row("ML", "volume", 1e3, SI, "megalitre|megalitres|megaliter"),
  row("mL", "volume", 1e-6, SI, "ml|millilitre|millilitres|milliliter|cc|cm3|cm³|ccm"),
  row(
    "m³",
    "volume",
    1,
    SI,
    "m3|m^3|m**3|cbm|Kubikmeter|cubic metre|cubic metres|cubic meter|cubic meters|cu m|cu.m|mc|M3|mètres cubes|metros cúbicos|metri cubi|kubieke meter",
  ),
  row("ft³", "volume", CUBIC_FOOT, SP811, "ft3|cu ft|cu.ft|cuft|cubic feet|cubic foot|ft^3|CF"),
  row("ccf", "volume", CUBIC_FOOT * 100, SP811, "CCF|hcf|HCF|100 ft3"),

  row("Hz", "frequency", 1, SI, "hz|HZ|hertz|Hertz|1/s|c/s|cps|s-1|s⁻¹"),
  row(
    "rpm",
    "rotation",
    1 / 60,
    SI,
    "RPM|Rpm|r/min|rev/min|revs/min|r.p.m.|1/min|min-1|min⁻¹|min^-1|U/min|U/min.|Upm|upm|u/min|Umdr/min|tr/min|tr/mn|trs/min|tours/min|t/min|t/mn|giri/min|giri/1'|o/min|omw/min|toeren/min|tpm|rot/min|vueltas/min|voltas/min|Umdrehungen/min|omwentelingen/min|revolutions per minute",
  ),
  row("rps", "rotation", 1, SI, "rev/s|r/s|U/s|tr/s"),
  row("rad/s", "rotation", 1 / (2 * Math.PI), SI, "rad/sec|rad s-1"),
  row(
    "%",
    "fraction",
    0.01,
    EXACT,
    "percent|per cent|pct|Pct|PCT|prozent|Prozent|% speed|procent|pourcent|por ciento|por cento|percento|per cento|porcentaje|%FS|% FS|% of max|%max|% max",
  ),

  row(
    "A",
    "electricCurrent",
    1,
    SI,
    "amp|amps|ampere|Amps|Amp|AMPS|Ampere|amperes|ampère|ampères|amperios|amperio|amperes (A)|amper|Arms|A rms|Aac|A AC|AAC",
  ),
  row("mA", "electricCurrent", 1e-3, SI, "milliamp|milliamps|milliampere|mADC|mA DC|MA|miliamperios|milliampère|mAmp|mamps"),
  row("µA", "electricCurrent", 1e-6, SI, "μA|uA|microamp|microamps"),
  row("V", "voltage", 1, SI, "volt|volts|Volt|Volts|VDC|V DC|Vdc|VAC|V AC|Vac|voltios|volti|Vrms"),
  row("mV", "voltage", 1e-3, SI, "millivolt|millivolts|mVDC|mV DC"),
  row("W", "power", 1, SI, "watt|watts|Watt|Watts|vatios"),
  row("kW", "power", 1e3, SI, "kilowatt|kilowatts|KW|Kw|kw|kilovatios|chilowatt"),
  row("MW", "power", 1e6, SI, "megawatt"),
  row("hp", "power", 745.6998715822702, SP811, "HP|Hp|horsepower|bhp|BHP"),
  row("PS", "power", 735.49875, SP811, "metric hp|cv|CV|ch|pk"),

  row(
    "°C",
    "temperature",
    1,
    SP811,
    "C|C°|°c|° C|degC|deg C|deg. C|degrees C|degree C|ºC|º C|˚C|℃|Celsius|celsius|grad C|Grad C|Grad Celsius|degrees Celsius|degrés C|grados C|graus C|gradi C|graden C|deg_C|Deg C|DegC|DEG C|oC|gr.C|grados Celsius|centigrade",
    273.15,
  ),
  row(
    "°F",
    "temperature",
    1 / 1.8,
    SP811,
    "F|F°|°f|° F|degF|deg F|deg. F|degrees F|ºF|º F|˚F|℉|Fahrenheit|fahrenheit|degrees Fahrenheit|deg_F|Deg F|DegF|DEG F|oF",
    459.67 / 1.8,
  ),
  row("K", "temperature", 1, SI, "kelvin|Kelvin|kelvins"),

  row("m", "length", 1, SI, "metre|metres|meter|meters|Meter|mètre|mètres|metro|metros|metri|mtr|mtrs"),
  row("cm", "length", 0.01, SI, "centimetre|centimetres|centimeter|centimeters|Zentimeter|centimètres|centímetros|centimetri"),
  row("mm", "length", 1e-3, SI, "millimetre|millimetres|millimeter|millimeters|Millimeter|millimètres|milímetros|millimetri"),
  row("ft", "length", 0.3048, SP811, "foot|feet|'|Ft|FT"),
  row("in", "length", 0.0254, SP811, 'inch|inches|"|in.|Zoll|pouces|pulgadas|pollici'),
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

/**
 * The unit a text names, or null. A text in the wrong case is taken only where one unit answers to it: "ML" and "mL" are two.
 */
export function findUnit(text: string): Unit | null {
  const name = tidy(text);
  const known = EXACTLY.get(name) ?? CASELESS.get(name.toLowerCase());
  if (known !== undefined) return known;
  // one character for a whole unit, as East Asian keyboards have them ("㎥/h", "㎪"). Source: Unicode UAX 15, compatibility forms
  const plain = name.normalize("NFKC");
  return plain === name ? readFlowUnit(name, findUnit, UNITS) : findUnit(plain);
}

export const toSI = (value: number, u: Unit): number => value * u.factor + u.offset;
export const fromSI = (value: number, u: Unit): number => (value - u.offset) / u.factor;
