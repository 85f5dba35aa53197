import type { Measured } from "./measured";
import type { UnitChoice } from "./unit-choice";
import { findUnit, fromSI, toSI } from "./unit-table";

/** What a number means, and so which unit it is shown in. "pressureDifference" is a change or a height, never gauge or absolute. */
export type Shown =
  | "gaugePressure"
  | "absolutePressure"
  | "pressureDifference"
  | "flow"
  | "volume"
  | "length"
  /** Inside diameter of a pipe: in or mm. */
  | "bore"
  | "time"
  | "temperature"
  | "power"
  | "electricCurrent"
  | "voltage"
  | "frequency"
  | "rotation"
  | "fraction"
  | "ratio"
  | "count"
  | "perHour"
  | "volumePerDay"
  | "none";

/** Narrow no-break space: a number and its unit never break apart. */
export const THIN_SPACE = "\u202f";
const MINUS = "\u2212";

type Scale = { readonly symbol: string; readonly toShown: (si: number) => number; readonly toSI: (shown: number) => number };

const scaled = (symbol: string, factor: number): Scale => ({ symbol, toShown: (v) => v / factor, toSI: (v) => v * factor });

function byTable(name: string, symbol: string = name): Scale {
  const unit = findUnit(name);
  if (unit === null) throw new RangeError(`format-quantity: no unit "${name}" in the table`);
  return { symbol, toShown: (v) => fromSI(v, unit), toSI: (v) => toSI(v, unit) };
}

const PRESSURE = { psi: byTable("psi"), bar: byTable("bar"), kPa: byTable("kPa"), m: byTable("mH2O", "m"), ft: byTable("ftH2O", "ft") };

/** The unit a quantity is shown in, with the way there and back. */
export function scaleOf(shown: Shown, units: UnitChoice): Scale {
  switch (shown) {
    case "gaugePressure":
    case "pressureDifference":
      return PRESSURE[units.pressure];
    case "absolutePressure":
      return { ...PRESSURE[units.pressure], symbol: `${units.pressure} abs` };
    case "flow":
      return byTable(units.flow);
    case "volume":
      return byTable(units.volume);
    case "volumePerDay":
      return { ...byTable(units.volume), symbol: `${units.volume}/day` };
    case "length":
      return byTable(units.length);
    case "bore":
      return byTable(units.length === "ft" ? "in" : "mm");
    case "temperature":
      return byTable(units.temperature);
    case "power":
      return byTable(units.power);
    case "time":
      return scaled("s", 1);
    case "electricCurrent":
      return scaled("A", 1);
    case "voltage":
      return scaled("V", 1);
    case "frequency":
      return scaled("Hz", 1);
    case "rotation":
      return byTable("rpm");
    case "fraction":
      return scaled("%", 0.01);
    case "perHour":
      return scaled("per hour", 1);
    case "ratio":
    case "count":
    case "none":
      return scaled("", 1);
  }
}

/** Decimals that give `significant` figures of a number of this size; never negative. */
function decimalsFor(size: number, significant: number): number {
  if (!(size > 0) || !Number.isFinite(size)) return 0;
  return Math.min(9, Math.max(0, significant - 1 - Math.floor(Math.log10(size))));
}

const WRITERS = new Map<string, Intl.NumberFormat>();

/** To make a writer of numbers takes some hundred times as long as to write one: each is made once. */
function writerOf(locale: string, decimals: number): Intl.NumberFormat {
  const key = `${locale} ${decimals}`;
  const known = WRITERS.get(key) ?? new Intl.NumberFormat(locale, { minimumFractionDigits: decimals, maximumFractionDigits: decimals });
  WRITERS.set(key, known);
  return known;
}

/** A bare number with so many decimals, in the reader's locale, with a true minus. */
export function formatNumber(value: number, decimals: number, locale: string | null): string {
  const text = locale === null ? Math.abs(value).toFixed(decimals) : writerOf(locale, decimals).format(Math.abs(value));
  return value < 0 && /[1-9]/.test(text) ? `${MINUS}${text}` : text;
}

/** A bare number with the decimals it has itself, as it stands in a file or in a setting. */
export function formatOwn(value: number, locale: string | null): string {
  const [, decimals = ""] = String(value).split(".");
  return locale === null ? String(value) : formatNumber(value, decimals.length, locale);
}

/** A bare number with so many figures, one far from 1 with its power of ten: "1.21e+4". */
export function formatFigures(value: number, figures: number, locale: string | null): string {
  const [mantissa, power] = value.toPrecision(figures).split("e");
  const [, decimals = ""] = mantissa.split(".");
  return `${formatNumber(Number(mantissa), decimals.length, locale)}${power === undefined ? "" : `e${power}`}`;
}

const withUnit = (number: string, symbol: string) =>
  symbol === "" ? number : symbol === "%" ? `${number}${THIN_SPACE}%` : `${number}${THIN_SPACE}${symbol}`;

/** A length of time as people say it: "18.2 s", "4 min 10 s", "3.2 h", "2.5 days". */
function formatTime(s: number, significant: number, locale: string | null): string {
  const size = Math.abs(s);
  if (size < 119.5) return withUnit(formatNumber(s, decimalsFor(size, significant), locale), "s");
  if (size < 3600) {
    const whole = Math.round(size);
    const rest = whole % 60;
    const minutes = withUnit(formatNumber(Math.sign(s) * Math.floor(whole / 60), 0, locale), "min");
    return rest === 0 ? minutes : `${minutes} ${withUnit(String(rest), "s")}`;
  }
  if (size < 48 * 3600) return withUnit(formatNumber(s / 3600, decimalsFor(size / 3600, significant), locale), "h");
  return withUnit(formatNumber(s / 86400, decimalsFor(size / 86400, significant), locale), "days");
}

/**
 * A quantity as text in the reader's units: the only place where a quantity becomes text.
 * @param value SI     @param significant figures to show, 3 where nothing is said
 */
export function formatQuantity(value: number, shown: Shown, units: UnitChoice, significant = 3): string {
  if (!Number.isFinite(value)) return "not known";
  if (shown === "time") return formatTime(value, significant, units.locale);
  if (shown === "count") return formatNumber(value, Number.isInteger(value) ? 0 : decimalsFor(Math.abs(value), significant), units.locale);
  const scale = scaleOf(shown, units);
  const number = scale.toShown(value);
  return withUnit(formatNumber(number, decimalsFor(Math.abs(number), significant), units.locale), scale.symbol);
}

/** Figures of a half-width worth showing: two where it starts with 1 or 2, else one (the usual rule for stated uncertainties). */
const figuresOf = (half: number) => (half / 10 ** Math.floor(Math.log10(half)) < 3 ? 2 : 1);

/** A measurement with its interval, with no more digits than the interval allows: "18.2 s (17.9 to 18.5)". */
export function formatMeasured(m: Measured, shown: Shown, units: UnitChoice): string {
  const scale = scaleOf(shown, units);
  const [value, low, high] = [m.value, m.low, m.high].map(scale.toShown);
  const half = Math.abs(high - low) / 2;
  const decimals =
    half > 0 ? Math.min(decimalsFor(half, figuresOf(half)), decimalsFor(Math.abs(value) || half, 5)) : decimalsFor(Math.abs(value), 4);
  const write = (x: number) => formatNumber(x, decimals, units.locale);
  if (write(low) === write(high)) return withUnit(write(value), scale.symbol);
  return `${withUnit(write(value), scale.symbol)} (${write(low)} to ${write(high)})`;
}

/** Figures shown of a reading whose signal has no step. */
const READING_FIGURES = 4;

/**
 * What a signal reads at a place, "57.7 psi" or, where a pixel holds many samples, "57.7 to 62.2 psi": no finer than the signal's own step.
 * @param step between neighbouring values of the signal, SI; 0 where it has none
 */
export function formatReading(low: number, high: number, step: number, shown: Shown, units: UnitChoice): string {
  const { symbol, toShown } = scaleOf(shown, units);
  const [a, b] = [toShown(low), toShown(high)];
  const ownStep = Math.abs(toShown(step) - toShown(0));
  const most = decimalsFor(Math.max(Math.abs(a), Math.abs(b)), READING_FIGURES);
  // A step of 0.1 needs one decimal, so does one of 0.05 read in a unit twice as large.
  const decimals = ownStep > 0 ? Math.min(most + 1, Math.max(0, Math.ceil(-Math.log10(ownStep) - 0.3))) : most;
  const [first, second] = [formatNumber(a, decimals, units.locale), formatNumber(b, decimals, units.locale)];
  return first === second ? withUnit(first, symbol) : `${first} to ${withUnit(second, symbol)}`;
}

/** A range to aim for: "32 to 37 psi". */
export function formatRange(low: number, high: number, shown: Shown, units: UnitChoice, significant = 2): string {
  const scale = scaleOf(shown, units);
  const [a, b] = [scale.toShown(low), scale.toShown(high)];
  const decimals = decimalsFor(Math.max(Math.abs(a), Math.abs(b)), significant);
  const [first, second] = [formatNumber(a, decimals, units.locale), formatNumber(b, decimals, units.locale)];
  return first === second ? withUnit(first, scale.symbol) : `${first} to ${withUnit(second, scale.symbol)}`;
}
