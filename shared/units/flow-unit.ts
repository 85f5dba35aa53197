import type { Unit } from "./unit-table";

/** Seconds in the words of time that stand under a volume, in the languages of the headings; common practice, no source. */
const TIMES: readonly (readonly [number, RegExp])[] = [
  [1, /^(?:s|secs?|seconds?|seg|segs|segundos?|sek|sekunden?|secondes?|secondo|seconden?)$/i],
  [60, /^(?:min|mins|mn|minutes?|minutos?|minuten?|minuti|minuto|minuut)$/i],
  [3600, /^(?:h|hr|hrs|hours?|std|stunden?|heures?|horas?|ora|ore|uur|u)$/i],
  [86400, /^(?:d|days?|tag|jours?|j|d[ií]as?|giorno|dag)$/i],
];
const PARTED = /^(.+?)\s*(?:\/|\bper\b|\bpro\b|\bpar\b|\bpor\b|\bal\b|\bje\b)\s*(\p{L}+)\.?$/iu;

/** A volume over a time, each in any of its spellings ("lts/seg", "litros por hora"); null where the text is none. @param findVolume the unit that a text names */
export function readFlowUnit(text: string, findVolume: (text: string) => Unit | null, flows: readonly Unit[]): Unit | null {
  const match = PARTED.exec(text);
  const time = match === null ? undefined : TIMES.find(([, words]) => words.test(match[2]))?.[0];
  const volume = match === null || time === undefined ? null : findVolume(match[1].replace(/\.$/, ""));
  if (match === null || time === undefined || volume?.quantity !== "volume") return null;
  const factor = volume.factor / time;
  const known = flows.find((unit) => unit.quantity === "flow" && Math.abs(unit.factor - factor) <= 1e-9 * factor);
  return known ?? { ...volume, symbol: `${volume.symbol}/${match[2]}`, quantity: "flow", factor, aliases: [] };
}
