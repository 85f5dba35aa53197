import type { FindingKind } from "../findings/finding";
import type { SiteFacts } from "../site/site-facts";

/** Which missing fact would sharpen a finding most; null where none would. */
export const sharpenedBy = (kind: FindingKind, site: SiteFacts): string | null => sharpener(kind, site)?.[1] ?? null;

/** The name of that fact, for a way to its field. */
export const sharpeningFact = (kind: FindingKind, site: SiteFacts): keyof SiteFacts | null => sharpener(kind, site)?.[0] ?? null;

const sharpener = (kind: FindingKind, site: SiteFacts) => SHARPENERS[kind].find(([fact]) => site[fact] === null);

const SHARPENERS: { readonly [K in FindingKind]: readonly (readonly [keyof SiteFacts, string])[] } = {
  "over-marked-pressure": [],
  cycling: [
    ["motorPower", "the motor's power, for the starts it may make"],
    ["tankVolume", "the tank's total volume, for the cycle it should give"],
  ],
  "short-cycles": [],
  oscillation: [
    ["sensorToTank", "the distance from sensor to tank"],
    ["pipeInsideDiameter", "the pipe's inside diameter"],
  ],
  drift: [["setPressure", "the set pressure"]],
  tracking: [["setPressure", "the set pressure"]],
  "tank-charge": [
    ["tankVolume", "the tank's total volume"],
    ["precharge", "the precharge as read with the water side empty"],
    ["flowMeter", "where the flow meter stands"],
  ],
  "leak-down": [
    ["tankVolume", "the tank's total volume"],
    ["precharge", "the precharge"],
  ],
  sensor: [
    ["setPressure", "the set pressure"],
    ["pipeInsideDiameter", "the pipe's inside diameter"],
  ],
  "pump-performance": [["pumpRatedFlow", "the pump's rated flow"]],
  demand: [["flowMeter", "where the flow meter stands"]],
};
