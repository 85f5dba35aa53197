import type { ChannelRole } from "../../../shared/record/channel-role";
import type { Unit } from "../../../shared/units/unit-table";
import { GENERIC_WORDS, OTHER_WORDS, ROLE_WORDS } from "./role-words";

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

export type RoleGuess = { readonly role: ChannelRole; readonly by: "words" | "unit" | "both" | "none"; readonly generic: boolean };

/** The role that a folded heading and a unit speak for; words and unit that agree beat words alone, words alone beat the unit alone. */
export function guessRole(words: string, unit: Unit | null): RoleGuess {
  const generic = GENERIC_WORDS.test(words);
  if (
    OTHER_WORDS.test(words) &&
    !(unit !== null && agrees("pressure", unit) && /press|druck|druk|presi/.test(words) && !/set|soll|consign|baro|atmos|luft/.test(words))
  )
    return { role: "other", by: "words", generic: false };
  let best: { role: ChannelRole; score: number; fits: boolean } | null = null;
  for (const [role, pattern, weight] of ROLE_WORDS) {
    const match = pattern.exec(words);
    if (match === null) continue;
    const fits = unit !== null && agrees(role, unit);
    // the later of two nouns names the quantity ("flow temperature"); a unit of another quantity speaks against
    const score = weight + match.index / 1000 + (fits ? 4 : unit === null ? 0 : canBe(role, unit) ? -0.5 : -4);
    if (best === null || score > best.score) best = { role, score, fits };
  }
  const byUnit = unit === null ? undefined : ROLE_OF_UNIT[unit.quantity];
  if (best !== null && best.score > 0) return { role: best.role, by: best.fits ? "both" : "words", generic: false };
  if (byUnit !== undefined) return { role: byUnit, by: "unit", generic };
  return { role: "other", by: "none", generic };
}

const agrees = (role: ChannelRole, unit: Unit) => FITS[role].includes(unit.quantity);

/** Raw signals and per cent can stand for anything measured; a head in metres can be a pressure or a level. */
function canBe(role: ChannelRole, unit: Unit): boolean {
  if (role === "running") return false;
  if (unit.quantity === "fraction") return role !== "volume";
  return unit.quantity === "voltage" || unit.symbol === "mA" || (role === "level" && unit.quantity === "pressure");
}
