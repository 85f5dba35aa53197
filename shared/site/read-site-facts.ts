import { SiteFileError } from "../problems/site-file-problem";
import { readQuantity, type WrittenKind } from "../units/parse-quantity";
import { type AbsolutePascal, type GaugePascal, gaugePascal, PASCAL_PER_PSI, pascalDifference } from "../units/pressure";
import { cubicMetre, cubicMetrePerSecond, type Metre, metre, seconds, watt } from "../units/quantity";
import { atmosphereAt } from "./atmosphere";
import type { AcceptanceLimits, Fact, SiteFacts } from "./site-facts";

/** Every fact a site file may hold, with an example of how it is written: the page's form and the error messages use it. */
export const SITE_FACTS = {
  name: { kind: "text", example: "Plant room 2" },
  setPressure: { kind: "gaugePressure", example: "52 psi" },
  pumpRatedFlow: { kind: "flow", example: "40 gpm" },
  motorPower: { kind: "power", example: "3 hp" },
  pump: { kind: "choice", options: ["variable-speed", "fixed-speed"], example: "variable-speed" },
  cutIn: { kind: "gaugePressure", example: "40 psi" },
  cutOut: { kind: "gaugePressure", example: "60 psi" },
  restartPressure: { kind: "gaugePressure", example: "47 psi" },
  tankVolume: { kind: "volume", example: "20 gal" },
  precharge: { kind: "gaugePressure", example: "34 psi" },
  tankRatedPressure: { kind: "gaugePressure", example: "125 psi" },
  sensorToTank: { kind: "length", example: "8 ft" },
  pipeInsideDiameter: { kind: "length", example: "1.25 in" },
  flowMeter: { kind: "choice", options: ["after-tank", "before-tank"], example: "after-tank" },
  altitude: { kind: "length", example: "200 m" },
  shortCycleLimit: { kind: "time", example: "60 s" },
  zone: { kind: "text", example: "Europe/Lisbon" },
} as const;
export const SITE_LIMITS = {
  startsPerHour: { kind: "count", example: "10" },
  driftAtSteadyFlow: { kind: "pressureDifference", example: "5 psi" },
  oscillationPeakToPeak: { kind: "pressureDifference", example: "3 psi" },
  band: { kind: "pressureDifference", example: "3 psi" },
  shareWithinBand: { kind: "fraction", example: "95 %" },
  worstDip: { kind: "pressureDifference", example: "12 psi" },
  sensorToTank: { kind: "length", example: "10 ft" },
} as const;
export type SiteFactName = keyof typeof SITE_FACTS;
export type SiteLimitName = keyof typeof SITE_LIMITS;
export const SITE_LIMIT_NAMES = Object.keys(SITE_LIMITS) as readonly SiteLimitName[];

/** Assumed where nothing is said; common practice, no source, except where noted. */
const ASSUMED_LIMITS = { drift: 5 * PASCAL_PER_PSI, oscillation: 3 * PASCAL_PER_PSI, band: 3 * PASCAL_PER_PSI, shortCycle: 60 };

const assumed = <T>(value: T, unit: string, text: string): Fact<T> => ({ value, unit, from: "assumed", text });

/**
 * Reads site facts as people write them ("52 psi", "1.25 in"); every field is optional, and so are the limits.
 * @param written the parsed site file, or what the page's form holds     @param file its name, for the messages
 * @throws SiteFileError naming the fact, what was written and what is expected
 */
export function readSiteFacts(written: unknown, file: string): SiteFacts {
  if (typeof written !== "object" || written === null || Array.isArray(written)) throw new SiteFileError({ id: "not-an-object", file });
  const facts = new Map(Object.entries(written));
  refuseUnknown(facts, [...Object.keys(SITE_FACTS), "limits"], file, "");
  const reader = factReader(facts, file, "");
  const altitude = reader.quantity("altitude", "length", metre, (h) => h >= -500 && h <= 11000);
  const site: SiteFacts = {
    name: reader.text("name"),
    setPressure: reader.quantity("setPressure", "gaugePressure", gaugePascal),
    pumpRatedFlow: reader.quantity("pumpRatedFlow", "flow", cubicMetrePerSecond, positive),
    motorPower: reader.quantity("motorPower", "power", watt, positive),
    pump: reader.choice("pump", SITE_FACTS.pump.options),
    cutIn: reader.quantity("cutIn", "gaugePressure", gaugePascal),
    cutOut: reader.quantity("cutOut", "gaugePressure", gaugePascal),
    restartPressure: reader.quantity("restartPressure", "gaugePressure", gaugePascal),
    tankVolume: reader.quantity("tankVolume", "volume", cubicMetre, positive),
    precharge: reader.quantity("precharge", "gaugePressure", gaugePascal, (p) => p > -90000),
    tankRatedPressure: reader.quantity("tankRatedPressure", "gaugePressure", gaugePascal, positive),
    sensorToTank: reader.quantity("sensorToTank", "length", metre, (x) => x >= 0),
    pipeInsideDiameter: reader.quantity("pipeInsideDiameter", "length", metre, positive),
    flowMeter: reader.choice("flowMeter", SITE_FACTS.flowMeter.options),
    altitude,
    zone: reader.zone("zone"),
    shortCycleLimit:
      reader.quantity("shortCycleLimit", "time", seconds, positive) ?? assumed(seconds(ASSUMED_LIMITS.shortCycle), "s", "60 s"),
    limits: readLimits(facts.get("limits"), file),
    atmosphere: atmosphereFact(altitude),
  };
  refuseContradictions(site, file);
  return site;
}

function readLimits(written: unknown, file: string): AcceptanceLimits {
  if (written !== undefined && (typeof written !== "object" || written === null || Array.isArray(written))) {
    throw new SiteFileError({ id: "wrong-value", file, fact: "limits", text: asRead(written), expected: '{ "band": "3 psi" }' });
  }
  const limits = new Map(Object.entries(written ?? {}));
  refuseUnknown(limits, Object.keys(SITE_LIMITS), file, "limits.");
  const reader = factReader(limits, file, "limits.");
  const psi = (pa: number) => assumed(pascalDifference(pa), "psi", `${Math.round(pa / PASCAL_PER_PSI)} psi`);
  return {
    startsPerHour: reader.quantity("startsPerHour", "count", (n) => n, positive),
    driftAtSteadyFlow: reader.quantity("driftAtSteadyFlow", "pressureDifference", pascalDifference, positive) ?? psi(ASSUMED_LIMITS.drift),
    oscillationPeakToPeak:
      reader.quantity("oscillationPeakToPeak", "pressureDifference", pascalDifference, positive) ?? psi(ASSUMED_LIMITS.oscillation),
    band: reader.quantity("band", "pressureDifference", pascalDifference, positive) ?? psi(ASSUMED_LIMITS.band),
    shareWithinBand: reader.quantity(
      "shareWithinBand",
      "fraction",
      (share) => share,
      (share) => share > 0 && share <= 1,
    ),
    worstDip: reader.quantity("worstDip", "pressureDifference", pascalDifference, positive),
    sensorToTank: reader.quantity("sensorToTank", "length", metre, positive),
  };
}

const positive = (x: number) => x > 0;

function atmosphereFact(altitude: Fact<Metre> | null): Fact<AbsolutePascal> {
  const value = atmosphereAt(altitude?.value ?? metre(0));
  return {
    value,
    unit: "Pa",
    from: altitude === null ? "assumed" : "given",
    text: altitude === null ? "sea level" : `at ${altitude.text}`,
  };
}

function refuseUnknown(facts: ReadonlyMap<string, unknown>, known: readonly string[], file: string, prefix: string): void {
  for (const fact of facts.keys()) {
    if (!known.includes(fact)) throw new SiteFileError({ id: "unknown-fact", file, fact: prefix + asRead(fact), known });
  }
}

function refuseContradictions(site: SiteFacts, file: string): void {
  const below = (low: Fact<GaugePascal> | null, high: Fact<GaugePascal> | null, fact: string, other: string) => {
    if (low !== null && high !== null && low.value >= high.value) {
      throw new SiteFileError({ id: "facts-disagree", file, fact, other, why: `${low.text} is not below ${high.text}` });
    }
  };
  below(site.cutIn, site.cutOut, "cutIn", "cutOut");
  below(site.restartPressure, site.setPressure, "restartPressure", "setPressure");
}

type Facts = ReadonlyMap<string, unknown>;

const LONGEST_SHOWN = 60;
/** What stands in the file, for a message: the start of a long text, no walk through what may be nested without end. */
function asRead(value: unknown): string {
  if (typeof value === "object" && value !== null) return Array.isArray(value) ? "[...]" : "{...}";
  const text = String(value);
  return text.length <= LONGEST_SHOWN ? text : `${text.slice(0, LONGEST_SHOWN)}...`;
}

/** Reads one fact after another out of a map; null, missing and "" all mean "not known". */
function factReader(facts: Facts, file: string, prefix: string) {
  const refuse = (fact: string, text: unknown, expected: string): never => {
    throw new SiteFileError({
      id: "wrong-value",
      file,
      fact: prefix + fact,
      text: asRead(text),
      expected,
    });
  };
  const written = (fact: string): unknown => {
    const value = facts.get(fact);
    return value === undefined || value === null || (typeof value === "string" && value.trim() === "") ? null : value;
  };
  const example = (fact: string): string =>
    new Map<string, { readonly example: string }>(Object.entries({ ...SITE_FACTS, ...SITE_LIMITS })).get(fact)?.example ?? "";
  return {
    text(fact: string): string | null {
      const value = written(fact);
      return value === null ? null : typeof value === "string" ? value.trim() : refuse(fact, value, example(fact));
    },
    choice<T extends string>(fact: string, options: readonly T[]): T | null {
      const value = written(fact);
      if (value === null) return null;
      return options.find((option) => option === value) ?? refuse(fact, value, options.map((o) => `"${o}"`).join(" or "));
    },
    zone(fact: string): string | null {
      const value = this.text(fact);
      return value === null || isZone(value)
        ? value
        : refuse(fact, value, "an IANA zone such as Europe/Lisbon, or an offset such as +01:00");
    },
    quantity<T extends number>(
      fact: string,
      kind: WrittenKind,
      brand: (si: number) => T,
      allowed: (si: number) => boolean = () => true,
    ): Fact<T> | null {
      const value = written(fact);
      if (value === null) return null;
      const text = typeof value === "number" && kind === "count" ? String(value) : value;
      if (typeof text !== "string") return refuse(fact, value, example(fact));
      const read = readQuantity(text, kind);
      if (read === null || !allowed(read.value)) return refuse(fact, value, example(fact));
      return { value: brand(read.value), unit: read.unit, from: "given", text: text.trim() };
    },
  };
}

function isZone(text: string): boolean {
  if (/^[+-]\d{2}:\d{2}$/.test(text)) return true;
  try {
    new Intl.DateTimeFormat("en", { timeZone: text });
    return true;
  } catch {
    return false;
  }
}

/** Facts of a site of which nothing is known: the limits assumed, all else null. */
export const NO_SITE_FACTS: SiteFacts = readSiteFacts({}, "");
