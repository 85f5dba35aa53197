import { formatQuantity, type Shown } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";

/** Pictures that explain a finding. */
export const CLOSER_LOOKS = [
  "cycle-overlay",
  "run-lengths",
  "rest-lengths",
  "starts-by-hour",
  "periodogram",
  "autocorrelation",
  "pressure-against-flow",
  "tank-line",
  "drift-window",
  "leak-fit",
] as const;
export type CloserLook = (typeof CLOSER_LOOKS)[number];

/** A number of a picture with its meaning, for the sentence beside it. */
export type LookNumbers = Readonly<Record<string, { readonly value: number; readonly shown: Shown }>>;

type Words = {
  readonly title: string;
  /** How to read the picture, in a sentence or two. */
  readonly reading: string;
  /** What it shows here, for readers who listen and for those in a hurry. `n` gives a number as text, or null. */
  readonly says: (n: (name: string) => string | null) => string;
};

const WORDS: { readonly [K in CloserLook]: Words } = {
  "cycle-overlay": {
    title: "One cycle over all cycles",
    reading:
      "All cycles laid over one another at the instant the pump started. The shaded part holds nine in ten of them; a cycle that has ended is left out from there on.",
    says: (n) => `${n("cycles")} cycles; in the middle one the pressure went from ${n("low")} to ${n("high")}.`,
  },
  "run-lengths": {
    title: "How long the pump ran",
    reading: "Bars count runs by their length. A run that a gap or an end of the record cuts is left out.",
    says: (n) =>
      `${n("count")} whole runs, half of them shorter than ${n("median")}; ${n("under")} shorter than the limit of ${n("limit")}.`,
  },
  "rest-lengths": {
    title: "How long the pump rested",
    reading: "Bars count rests by their length. Rests of much the same length with nothing drawn point to water that leaks away.",
    says: (n) => `${n("count")} whole rests, half of them shorter than ${n("median")}.`,
  },
  "starts-by-hour": {
    title: "Starts in each hour",
    reading: "Starts of the pump in each hour of the record, by the clock.",
    says: (n) =>
      `${n("starts")} starts; the busiest hour by the clock had ${n("most")}${n("allowed") === null ? "" : `, ${n("allowed")} are allowed`}.`,
  },
  periodogram: {
    title: "At which period it swings",
    reading: "Power of the pressure's swings by their period. A peak that stands out of the dashed background is a regular swing.",
    says: (n) => `The strongest swing has a period of ${n("period")} and stands ${n("above")} times above the background.`,
  },
  autocorrelation: {
    title: "How well the swing repeats",
    reading: "How well the pressure agrees with itself a while later: 1 is full agreement. A regular swing comes back at each period.",
    says: (n) => `One period of ${n("period")} later the agreement is ${n("agreement")}.`,
  },
  "pressure-against-flow": {
    title: "Pressure against flow",
    reading: "Each point is an instant with the pump running. A drive that holds its set pressure gives a level cloud.",
    says: (n) => {
      if (n("falls") !== null) return `By the middle line pressure falls by ${n("falls")} from no flow to ${n("flow")}.`;
      return n("rises") !== null
        ? `By the middle line pressure rises by ${n("rises")} from no flow to ${n("flow")}.`
        : `${n("points")} points.`;
    },
  },
  "tank-line": {
    title: "The tank's line",
    reading:
      "One over the absolute pressure against the water the tank gave with the pump off. By the gas law it is a straight line: the flatter, the more gas. Where it bends up the tank is empty.",
    says: (n) =>
      n("empties") === null
        ? `A straight line through ${n("points")} readings, as far as the log goes: the tank never ran empty.`
        : `The tank runs empty at ${n("empties")}.`,
  },
  "drift-window": {
    title: "Drift while the draw was steady",
    reading: "Pressure over one stretch of steady draw, with the line that fits it best and the limit.",
    says: (n) => `Pressure changed by ${n("change")} in ${n("length")}; the limit is ${n("limit")}.`,
  },
  "leak-fit": {
    title: "Pressure that leaks away",
    reading: "Pressure with the pump off and nothing drawn, and the line that a steady loss of water from the tank would give.",
    says: (n) => `Pressure fell by ${n("fall")} in ${n("length")}.`,
  },
};

export const LOOKS_WORDS = {
  title: "Closer looks",
  beingDrawn: "The picture is being drawn.",
  nothing: "Nothing to show here: the log holds too little for this picture.",
  goTo: "Closer look",
  hourByDay: "Starts by day and hour",
  lastDays: (days: number) => `, the last ${days} days`,
  day: "Day",
  savePicture: "Save the picture",
  saveNumbers: "Save the numbers",
} as const;

export const lookTitle = (look: CloserLook): string => WORDS[look].title;
export const lookReading = (look: CloserLook): string => WORDS[look].reading;

/** Differences and ratios are known to two figures at best. */
const ROUGH: readonly Shown[] = ["pressureDifference", "ratio"];

/** What a picture shows here. */
export function sayLook(look: CloserLook, numbers: LookNumbers, units: UnitChoice): string {
  return WORDS[look].says((name) => {
    const number = numbers[name];
    return number === undefined ? null : formatQuantity(number.value, number.shown, units, ROUGH.includes(number.shown) ? 2 : 3);
  });
}
