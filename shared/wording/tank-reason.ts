import type { Numbers } from "../findings/observation";
import type { Sayer, Write } from "./sayer";

/** The charge that a tank's give is held against: the one that was read, or the usual one where none was. */
const charge = (w: Write, n: Numbers) => ("usual" in n ? `and the usual charge of ${w("usual", "gaugePressure", 2)}` : "and charge");

/** What the answers about the tank say. */
export const TANK_SENTENCES = {
  "tank-by-facts": {
    ample: (w, n) =>
      "practice" in n
        ? `The tank holds ${w("volume", "volume", 2)}; practice asks for ${w("practice", "volume", 2)} for this pump.`
        : `The tank gives ${w("ratio", "ratio", 2)} min of the pump's flow between stop and start.`,
    small: (w, n) =>
      "practice" in n
        ? `The tank holds ${w("volume", "volume", 2)} where practice asks for ${w("practice", "volume", 2)}.`
        : `The tank gives only ${w("ratio", "ratio", 2)} min of the pump's flow between stop and start.`,
    tiny: (w, n) =>
      "practice" in n
        ? `The tank holds only ${w("volume", "volume", 2)} where practice asks for ${w("practice", "volume", 2)}.`
        : `The tank gives only ${w("ratio", "ratio", 2)} min of the pump's flow between stop and start.`,
  },
  "precharge-by-facts": {
    low: (w) =>
      `The precharge as read, ${w("precharge", "gaugePressure")}, lies far below ${w("reference", "gaugePressure")}, which it should follow.`,
    "in-band": (w) => `The precharge as read, ${w("precharge", "gaugePressure")}, suits ${w("reference", "gaugePressure")}.`,
    high: (w) => `The precharge as read, ${w("precharge", "gaugePressure")}, stands too close to ${w("reference", "gaugePressure")}.`,
  },
  "gas-constant": {
    collapsed: (w, n) => `At work the tank has only ${w("ratio", "fraction", 2)} of the give that its size ${charge(w, n)} would have.`,
    reduced: (w, n) => `At work the tank has ${w("ratio", "fraction", 2)} of the give that its size ${charge(w, n)} would have.`,
    lessened: (w, n) =>
      `At work the tank has somewhat less, ${w("ratio", "fraction", 2)}, of the give that its size ${charge(w, n)} would have.`,
    "as-expected": (w, n) => `At work the tank gives what its size ${charge(w, n)} promise (${w("ratio", "fraction", 2)}).`,
    raised: (w, n) => `At work the tank has more gas than its size ${charge(w, n)} would have (${w("ratio", "fraction", 2)}).`,
  },
  "gas-constant-by-practice": {
    tiny: (w) => `At work the tank has only ${w("ratio", "fraction", 2)} of the give that practice asks for with this pump.`,
    small: (w) => `At work the tank has ${w("ratio", "fraction", 2)} of the give that practice asks for with this pump.`,
    enough: () => "At work the tank has the give that practice asks for with this pump.",
  },
  "empties-at": {
    "far-below": (w) => `The tank runs empty at or below ${w("emptiesAt", "gaugePressure")}, far below ${w("reference", "gaugePressure")}.`,
    "in-band": (w) => `The tank runs empty at ${w("emptiesAt", "gaugePressure")}, which suits ${w("reference", "gaugePressure")}.`,
    "near-set": (w) => `The tank runs empty at ${w("emptiesAt", "gaugePressure")} already, close to ${w("reference", "gaugePressure")}.`,
  },
  "fall-breaks": {
    nowhere: () =>
      "Before the starts the pressure falls without a break that comes again at the same pressure: nothing shows the tank running empty.",
    below: (w) =>
      `Before the starts the fall turns into a drop at ${w("breaksAt", "gaugePressure")}: there the tank is empty, which suits the site or lies below.`,
    "near-set": (w) =>
      `Before the starts the fall turns into a drop, each time at ${w("breaksAt", "gaugePressure")}: the tank gives above it and is empty there.`,
  },
} satisfies Readonly<Record<string, Readonly<Record<string, Sayer>>>>;
