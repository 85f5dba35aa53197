import { COMPANY_LIMITS } from "../site/company-limits";
import type { FactKey } from "../site/fact-key";

/** How the page names a fact, and where on site it is found. */
export type FactWords = { readonly label: string; readonly where: string };

export const FACT_WORDS: Readonly<Record<FactKey, FactWords>> = {
  name: { label: "Name of the site", where: "As you would call it in the report." },
  setPressure: { label: "Set pressure", where: "What the drive is told to hold, at the sensor." },
  pump: { label: "How the pump is driven", where: "Held at a pressure by its speed, or switched between two pressures." },
  pumpRatedFlow: { label: "Rated flow of the pump", where: "On the pump's plate, or all pumps that run together." },
  motorPower: { label: "Motor power", where: "On the motor's plate. Gives the starts per hour it can stand." },
  cutIn: { label: "Cut-in pressure", where: "Where the pump starts, if it is switched by pressure." },
  cutOut: { label: "Cut-out pressure", where: "Where the pump stops." },
  restartPressure: { label: "Restart pressure", where: "Where a sleeping drive wakes up again." },
  tankVolume: { label: "Total tank volume", where: "The whole shell, from its label, all tanks together; not the drawdown." },
  precharge: { label: "Precharge as read", where: "Air pressure with the pump off and all water let out of the tank." },
  tankRatedPressure: { label: "Tank's marked working pressure", where: "The highest pressure printed on the tank." },
  sensorToTank: { label: "Pipe length from sensor to tank", where: "Along the pipe, bends included." },
  pipeInsideDiameter: { label: "Inside diameter of that pipe", where: "Inside, not the nominal size." },
  flowMeter: { label: "Where the flow meter stands", where: "After the tank it sees what is drawn; before it, what is pumped." },
  altitude: { label: "Height above sea level", where: "Sets the weight of the air in the tank's gas law." },
  zone: { label: "Time zone of the logger", where: "A place or an offset, if the file does not say." },
  shortCycleLimit: { label: "A run is short below", where: "How long a run should last at least." },
  "limits.startsPerHour": { label: "Starts per hour, at most", where: "Where you enter nothing, the motor power decides." },
  "limits.driftAtSteadyFlow": {
    label: "Drift while the draw is steady, at most",
    where: "From the beginning to the end of a steady draw.",
  },
  "limits.oscillationPeakToPeak": { label: "Oscillation, peak to peak, at most", where: "From top to bottom of the wave." },
  "limits.shareWithinBand": { label: "Share of running time within the band, at least", where: "Where you enter nothing, 95 %." },
  "limits.worstDip": {
    label: "Worst dip, at most",
    where: "Where you enter nothing: down to the restart pressure and twice the band.",
  },
  "limits.sensorToTank": { label: "Pipe from sensor to tank, at most", where: "Where you enter nothing, 10 ft." },
  "limits.band": { label: "Pressure stays within, either side", where: "Of the set pressure, while water is drawn." },
};

/** Groups in the order in which an engineer walks the site. */
export const FACT_GROUPS: readonly { readonly title: string; readonly facts: readonly FactKey[] }[] = [
  { title: "Pump and drive", facts: ["setPressure", "pump", "pumpRatedFlow", "motorPower", "cutIn", "cutOut", "restartPressure"] },
  { title: "Tank", facts: ["tankVolume", "precharge", "tankRatedPressure"] },
  { title: "Sensor, meter and pipe", facts: ["sensorToTank", "pipeInsideDiameter", "flowMeter"] },
  { title: "Place", facts: ["name", "altitude", "zone"] },
  {
    title: "What the site must keep to",
    facts: COMPANY_LIMITS,
  },
];

const CHOICE_WORDS: Readonly<Record<string, string>> = {
  "variable-speed": "by its speed, from a drive",
  "fixed-speed": "on and off, at one speed",
  "after-tank": "after the tank",
  "before-tank": "between pump and tank",
};
export const sayChoice = (option: string): string => CHOICE_WORDS[option] ?? option;

export const SITE_FACTS_WORDS = {
  howWritten: (units: readonly string[]) =>
    `All of this is optional; nothing is filled in with a typical value. Write a number with its unit; a number alone is taken in ${units.join(", ")}.`,
  reading: (text: string) => `That is ${text}.`,
  companyLimit: (text: string) => `${text} is the company's limit while nothing is entered.`,
  assumed: (text: string) => `${text} is assumed while nothing is entered.`,
  fromLog: (text: string) => `${text}, read from the log.`,
  notKnown: "not known",
  whatIsThis: "What is this?",
  readFile: "Read facts from a file",
  saveFile: "Save facts as a file",
  file: "File of site facts",
  sameSite: "Is this the same site?",
  carried: "The site facts entered for the visit before are in use:",
  keep: "Yes, keep the facts",
  beginAnew: "No, begin with none",
  show: "Show the facts",
} as const;
