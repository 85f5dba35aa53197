import { readScaledUnit } from "../../../shared/units/scaled-unit";
import { findUnit, type Unit } from "../../../shared/units/unit-table";

/** A unit and what the same text says of its reference. `other`: the unit under another reading of the same words ("bar x 10"). */
export type FoundUnit = {
  readonly unit: Unit;
  readonly reference: "gauge" | "absolute" | null;
  readonly text: string;
  readonly other?: Unit;
};

const ABSOLUTE = /\b(abs(?:olut[\p{L}]*|oluut)?|absolue?s?|assolut[aoie]|ass(?=[.)\]]))(?!\p{L})\.?/iu;
const GAUGE = /\b(gauge|gage|rel(ative?|ativ\w*|atief)?|uberdruck|überdruck|manometr\w*|manométr\w*|overdruk|effective?)\b\.?/i;

/** What words say of a pressure's reference: "abs.", "gauge", "Überdruck"; null where they say nothing. */
export function findReference(text: string): "gauge" | "absolute" | null {
  if (ABSOLUTE.test(text)) return "absolute";
  return GAUGE.test(text) ? "gauge" : null;
}

/** What a text without the characters beyond ASCII has a question mark for. */
const BEYOND_ASCII = ["\u00b3", "\u00b2", "\u00b0", "\u00b5", "\u2082"];

/** "m?/h", "?C": the one unit that a lost character leaves possible; null where there are several or none. */
function mendedUnit(text: string): Unit | null {
  const lost = /[?\ufffd]/.exec(text);
  if (lost === null) return null;
  const found = BEYOND_ASCII.flatMap((character) => findUnit(text.replace(lost[0], character)) ?? []);
  return new Set(found.map(({ symbol }) => symbol)).size === 1 ? found[0] : null;
}

/** The unit that a whole text names, with or without a word for the reference ("bar abs", "kPa (g)"); null where it is none. */
export function wholeUnit(text: string): FoundUnit | null {
  const bare = text
    .trim()
    .replace(/^[[({<]\s*|\s*[\])}>]$/g, "")
    .trim();
  if (bare === "" || bare.length > 40) return null;
  const unit =
    findUnit(text) ??
    findUnit(bare) ??
    findUnit(bare.replace(/\.$/, "")) ??
    findUnit(bare.replace(/\s*\/\s*/g, "/")) ??
    turnsPerMinute(bare) ??
    mendedUnit(bare);
  if (unit !== null) return { unit, reference: referenceOf(unit) ?? findReference(bare), text: bare };
  const reference = findReference(bare);
  const stripped = bare
    .replace(ABSOLUTE, "")
    .replace(GAUGE, "")
    .replace(/[()\s,]+$/g, "")
    .replace(/^[()\s,]+/g, "");
  const plain = reference === null ? null : findUnit(stripped);
  if (plain !== null) return { unit: plain, reference, text: bare };
  const short = /^(.+?)\s*[([]?\s*([ga])\s*[)\]]?$/i.exec(bare);
  const pressure = short === null ? null : findUnit(short[1].trim());
  if (pressure === null || pressure.quantity !== "pressure") return null;
  return { unit: pressure, reference: short![2].toLowerCase() === "a" ? "absolute" : "gauge", text: bare };
}

/** "Omw./min.", "tours par minute", "giri al minuto": turns with the words between them spelled out. */
const turnsPerMinute = (text: string): Unit | null => {
  const match = /^(\p{L}+)\.?\s*(?:\/|\b(?:per|por|par|pro|al|je|la)\b)\s*(?:min\.?|minut\w*|mn)$/iu.exec(text);
  const unit = match === null ? null : findUnit(`${match[1]}/min`);
  return unit?.quantity === "rotation" ? unit : null;
};

const referenceOf = (unit: Unit) =>
  unit.quantity === "absolutePressure" ? "absolute" : unit.quantity === "gaugePressure" ? "gauge" : null;

/** A unit with a scale to it ("kPa x 10", "0.1 psi"), or per cent of a range that the words name ("% of 10 bar"); null where the text is neither. */
export function scaledUnit(text: string, signedOnly = false): FoundUnit | null {
  const bare = text.trim().replace(/^[[({<]\s*|\s*[\])}>]$/g, "");
  const percent = findUnit("%");
  if (percent !== null && /^(?:%|per ?cent|percent|prozent|pct)(?=\s|\p{L}|\()/iu.test(bare) && /\d/.test(bare))
    return { unit: percent, reference: null, text: bare };
  if (bare.length > 40) return null;
  const found = readScaledUnit(bare, signedOnly);
  if (found === null) return null;
  const { unit, other } = found;
  return { unit, reference: referenceOf(unit), text: bare, ...(other === null ? {} : { other }) };
}

/** The unit of a units cell, of brackets or of a person's answer: plain, or with a scale. */
export const writtenUnit = (text: string): FoundUnit | null => wholeUnit(text) ?? scaledUnit(text);

const SCALE_APART = /^(.*?)(?:\s*[([]\s*([x×*]\s*[\d.,/^-]+)\s*[)\]]|\)\s*([x×*]\s*[\d.,/^-]+))\s*$/i;

/** "Pressure (kPa) x10" and "Pressure kPa (x10)" with the scale beside its unit. */
function withScaleJoined(heading: string): string {
  const match = SCALE_APART.exec(heading);
  if (match === null) return heading;
  return match[3] === undefined ? `${match[1]} ${match[2]}` : `${match[1]} ${match[3]})`;
}

/** A gallon with its country behind it: "gal(Imp)/min". */
const GALLON_OF = /\bgal\s*\((imp|uk|us)\w*\.?\)/gi;

/** A power as pages write it: "m<sup>3</sup>/h". */
const RAISED = /<su[bp]>\s*([23])\s*<\/su[bp]>/gi;

/** A unit at the end of a heading: in brackets, after comma, slash, underscore or blank. Single letters only in brackets or after a comma or an underscore. */
export function unitInHeading(given: string): FoundUnit | null {
  const plain = given.replace(RAISED, (_, digit: string) => (digit === "2" ? "²" : "³")).replace(GALLON_OF, "$1 gal");
  const heading = withScaleJoined(plain);
  const marked = /(\S+)\s*[([]\s*(?:a|g|abs|ü|rel)\.?\s*[)\]]\s*$/i.exec(heading);
  const pressure = marked === null ? null : wholeUnit(marked[0]);
  if (pressure !== null) return pressure;
  for (const [, inside] of [...heading.matchAll(/[[({<]([^\])}>]*(?:\([^)]*\))?[^\])}>]*)[\])}>]/g)].reverse()) {
    const unit = writtenUnit(inside) ?? firstWhole(inside.split(/[,;]/)) ?? unitThenWords(inside);
    if (unit !== null) return unit;
  }
  const quoted = /["'\u201c]([^"'\u201d]+)["'\u201d]\s*$/.exec(heading);
  const inQuotes = quoted === null ? null : wholeUnit(quoted[1]);
  if (inQuotes !== null) return inQuotes;
  const text = heading.replace(/[[({<][^\])}>]*[\])}>]/g, " ").trim();
  for (const match of text.matchAll(/[,;_:|=]|\s-\s|\s|\/|\bin\b|-/g)) {
    const rest = text.slice(match.index + match[0].length).trim();
    const unit =
      wholeUnit(match[0] === "_" ? rest.replace(/_/g, " ") : rest) ??
      (match[0] === "_" ? wholeUnit(rest.replace(/_per_|_p_/i, "/").replace(/_/g, "/")) : null);
    if (unit !== null && (/[,;_:|=]/.test(match[0]) || !isWord(unit.text) || (match[0] === "in" && /^bars?$/i.test(unit.text))))
      return unit;
    const scaled = match[0] === "/" || match[0] === "-" ? null : scaledUnit(rest, true);
    if (scaled !== null) return scaled;
  }
  const whole = wholeUnit(text);
  if (whole !== null && !isWord(text)) return whole;
  const front = /^(\S+(?: ?\([^)]*\))?)\s+\p{L}/u.exec(heading)?.[1] ?? "";
  const inFront = wholeUnit(front);
  if (inFront !== null && !isWord(front) && inFront.unit.quantity !== "power" && inFront.unit.quantity !== "volume") return inFront;
  // "pressureBar", "pressure.bar": the last of the words that a program runs together
  for (const { index } of text.matchAll(/(?<=\p{Ll})(?=\p{Lu})|(?<=\p{L}\.)(?=\p{L}+$)/gu)) {
    const end = text.slice(index);
    const joined = /^\p{L}+$/u.test(end) ? (wholeUnit(end.replace(/^\p{Lu}(?=\p{Ll})/u, (c) => c.toLowerCase())) ?? wholeUnit(end)) : null;
    if (joined !== null && !isWord(joined.text)) return joined;
  }
  return null;
}

/** Unit names that are as often a word or a letter of the heading itself: "Flow in", "Ch", "Sensor A". They need brackets or a comma. */
const isWord = (text: string) =>
  /^(?:[a-z'"]|in|ch|pk|mc|lt|lit|cf|mb|ma|cv|ps|at|bars?|meter|metro|pa)$/i.test(text) && !/^(?:bars?|BARS?|mA|PS|mb|Pa)$/.test(text);

/** A height over the zero of a country's levels or over another place: "m NAP", "m ü. NN", "ft above floor". */
const OVER_DATUM =
  /^(m|cm|mm|ft)\s*(?:NAP|NN|NHN|TAW|A?MSL|ASL|AOD|AHD|NGF|NGVD|NAVD|IGN|s\.?n\.?m|s\.?l\.?m|ü\.|above|over|below|under|über|unter|boven|onder|sobre|sopra|sotto|acima|abaixo|au-dess)/i;

/** In brackets, a unit and what it is of: "bar at header", "Hz output", "gal/min UK"; a gallon takes its country from the words. */
function unitThenWords(inside: string): FoundUnit | null {
  const height = OVER_DATUM.exec(inside.trim());
  if (height !== null) return wholeUnit(height[1]);
  const match = /^(\S+)\s+(?:[-\u2013]\s+)?(\p{L}\D*)$/u.exec(inside.trim());
  if (match === null || isWord(match[1])) return null;
  const country = /\b(?:uk|imp|us)/i.exec(match[2]);
  return (country === null ? null : wholeUnit(`${country[0]} ${match[1]}`)) ?? wholeUnit(match[1]);
}

const firstWhole = (parts: readonly string[]): FoundUnit | null => {
  for (const part of parts) {
    const unit = wholeUnit(part);
    if (unit !== null) return unit;
  }
  return null;
};

/** The unit stuck to a value: "3.4 bar", "12,5l/min"; null where there is none. */
export function unitOfCell(cell: string): FoundUnit | null {
  const match = /^[+\-\u2212]?\d[\d.,'\u2019 \u00a0]*?(?:e[+-]?\d+)?\s*((?:(?<=\s)1\/)?[^\d\s.,'\u2019].*)$/i.exec(cell);
  return match === null ? null : wholeUnit(match[1].replace(/\s*[[(](?:ok|good|valid|g)[\])]$/i, ""));
}
