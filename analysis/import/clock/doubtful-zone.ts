import type { ImportQuestion } from "../../../shared/record/import-question";
import type { PlaceOfZone } from "../../../shared/wording/clock-question";
import { type ClockHints, speaksAmerican } from "./clock-hints";
import type { ClockReading } from "./clock-reading";
import { writeOffset } from "./zone-text";

/** Abbreviations that several parts of the world use alike, with the offset of each; the first is the one taken. Common practice, no source. */
const DOUBTFUL: Readonly<Record<string, readonly (readonly [offset: number, place: PlaceOfZone])[]>> = {
  IST: [
    [19800, "india"],
    [7200, "israel"],
    [3600, "ireland-in-summer"],
  ],
  CST: [
    [-21600, "central-north-america"],
    [28800, "china"],
    [-18000, "cuba"],
  ],
};
const NAMES = new RegExp(`\\b(${Object.keys(DOUBTFUL).join("|")})\\b`);

/** A clock whose zone rests on an abbreviation of several meanings: asked, unless the units of the file show which is meant. */
export function askDoubtfulZone(reading: ClockReading, texts: readonly string[], hints: ClockHints): ClockReading {
  const name = texts.map((text) => NAMES.exec(text)?.[1]).find((found) => found !== undefined);
  if (name === undefined || reading.zone !== writeOffset(DOUBTFUL[name][0][0])) return reading;
  if (hints.answers.zone !== null) return { ...reading, zone: hints.answers.zone };
  return name === "CST" && speaksAmerican(hints) ? reading : { ...reading, questions: [...reading.questions, zoneQuestion(name)] };
}

const zoneQuestion = (name: string): ImportQuestion => ({
  id: "time-zone",
  asks: { kind: "doubtful-zone", name, places: DOUBTFUL[name].map(([, place]) => place) },
  options: DOUBTFUL[name].map(([offset]) => writeOffset(offset)),
  assumed: writeOffset(DOUBTFUL[name][0][0]),
});
