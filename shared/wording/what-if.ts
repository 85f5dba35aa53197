import type { Change, ChangeId, MeasureId, ParameterId, ParameterOrigin, Proposal, WhatIfWarning } from "../findings/what-if";
import { formatOwn, formatQuantity, type Shown } from "../units/format-quantity";
import type { UnitChoice } from "../units/unit-choice";

type Named = { readonly name: string; readonly shown: Shown };

/** Parameters of the model as the engineer would name them. */
export const PARAMETER_NAMES: Readonly<Record<ParameterId, Named>> = {
  "gas-constant": { name: "Gas constant of the tank (charge times volume)", shown: "none" },
  "tank-volume": { name: "Tank volume", shown: "volume" },
  "set-pressure": { name: "Set pressure", shown: "gaugePressure" },
  "restart-pressure": { name: "Restart pressure", shown: "gaugePressure" },
  "restart-delay": { name: "From restart pressure until the pump is seen running", shown: "time" },
  "stop-pressure": { name: "Pressure at which the pump stops", shown: "gaugePressure" },
  shutoff: { name: "Pump pressure at full speed without flow", shown: "pressureDifference" },
  steepness: { name: "Steepness of the pump curve", shown: "none" },
  gain: { name: "Loop gain (speed share per Pa)", shown: "none" },
  "integral-time": { name: "Integral time of the loop", shown: "time" },
  "loop-lag": { name: "Lag of the loop", shown: "time" },
  "lag-share": { name: "Share of the lag that lies in the reading", shown: "fraction" },
  "ramp-time": { name: "Time from standstill to full speed", shown: "time" },
  "sleep-flow": { name: "Draw below which the drive goes to sleep", shown: "flow" },
  "sleep-delay": { name: "Sleep delay", shown: "time" },
  "system-leak": { name: "Leak after the tank", shown: "flow" },
  "back-leak": { name: "Leak back through the check valve", shown: "flow" },
  "sensor-distance": { name: "Distance from sensor to tank", shown: "length" },
};

export const MEASURE_NAMES: Readonly<Record<MeasureId, Named>> = {
  "starts-per-hour": { name: "Starts", shown: "perHour" },
  "short-cycles-per-hour": { name: "Short cycles", shown: "perHour" },
  "oscillation-peak-to-peak": { name: "Oscillation, peak to peak, at worst", shown: "pressureDifference" },
  "share-oscillating": { name: "Share of running time that oscillates", shown: "fraction" },
  "drift-at-steady-flow": { name: "Drift at steady flow, at worst", shown: "pressureDifference" },
  "lowest-pressure": { name: "Lowest pressure", shown: "gaugePressure" },
  "highest-pressure": { name: "Highest pressure", shown: "gaugePressure" },
  "stored-water": { name: "Water the tank gives between stop and restart", shown: "volume" },
};

export const CHANGE_NAMES: Readonly<Record<ChangeId, Named>> = {
  precharge: { name: "Precharge", shown: "gaugePressure" },
  "tank-volume": { name: "Tank volume", shown: "volume" },
  "sensor-distance": { name: "Distance from sensor to tank", shown: "length" },
  "pipe-bore": { name: "Pipe inside diameter", shown: "bore" },
  gain: { name: "Loop gain", shown: "ratio" },
  "integral-time": { name: "Integral time", shown: "time" },
  "sleep-delay": { name: "Sleep delay", shown: "time" },
  "set-pressure": { name: "Set pressure", shown: "gaugePressure" },
  "restart-pressure": { name: "Restart pressure", shown: "gaugePressure" },
  leak: { name: "Leak", shown: "flow" },
};

const ORIGINS: Readonly<Record<ParameterOrigin, string>> = {
  log: "read from the log",
  facts: "from the site facts",
  usual: "not fixed by this log; usual value and its spread",
};

export const sayOrigin = (origin: ParameterOrigin): string => ORIGINS[origin];

export function sayChange(change: Change, units: UnitChoice): string {
  const { name, shown } = CHANGE_NAMES[change.id];
  if (change.id === "gain") return `${name} times ${formatOwn(Number(change.to.toPrecision(2)), units.locale)}`;
  return `${name} ${formatQuantity(change.to, shown, units)}`;
}

/** What a search found, in a sentence. */
export function sayProposal(proposal: Proposal, mayBreak: readonly MeasureId[] = []): string {
  const doubt =
    mayBreak.length === 0
      ? ""
      : ` Within the model's spread these may still be over: ${mayBreak.map((id) => MEASURE_NAMES[id].name.toLowerCase()).join("; ")}.`;
  if (proposal.changes !== null && proposal.changes.length === 0)
    return `By the fitted model the limits are met as it is; nothing needs changing.${doubt}`;
  if (proposal.changes !== null) return `The smallest change of ${proposal.tried} tried that meets the limits by the fitted model.${doubt}`;
  const broken = proposal.broken.map((id) => MEASURE_NAMES[id].name.toLowerCase()).join(", ");
  return `None of the ${proposal.tried} changes tried meets the limits; this comes nearest. Still over: ${broken}.`;
}

const OVER_MARKED: Readonly<Record<"recorded" | "as-it-is" | "with-the-change", (highest: string, marked: string) => string>> = {
  recorded: (highest, marked) =>
    `Before anything else: the log shows ${highest}, above the ${marked} marked on the tank. Stop the pump and find out why; change nothing that raises pressure until it stays below.`,
  "as-it-is": (highest, marked) =>
    `Before anything else: as the site stands pressure may reach ${highest}, above the ${marked} marked on the tank. Find out why before you change anything.`,
  "with-the-change": (highest, marked) =>
    `With the change pressure may reach ${highest}, above the ${marked} marked on the tank. Do not make this change.`,
};

export function sayWhatIfWarning(warning: WhatIfWarning, units: UnitChoice): string {
  switch (warning.id) {
    case "draw-not-known":
      return "The model cannot be run: what was drawn is not known. Log the flow, or the speed of the pump.";
    case "several-pumps":
      return "Several pumps work in turn here; the model knows one. Take the figures as a direction only.";
    case "explains-too-little":
      return `The fitted model explains only ${Math.max(0, Math.round(100 * warning.share))} % of this log's pressure: something works here that it does not know. Do not lean on its predictions.`;
    case "sampling-too-slow-for-loop":
      return `With a sample every ${Math.round(warning.intervalS)} s the loop acts unseen; oscillation and dips are guesses. Log every 1 or 2 s.`;
    case "precharge-above-restart":
      return `A precharge of ${formatQuantity(warning.precharge, "gaugePressure", units)} lies above the restart pressure (${formatQuantity(warning.restart, "gaugePressure", units)}): the tank would be empty before the pump starts.`;
    case "over-marked-pressure":
      return OVER_MARKED[warning.when](
        formatQuantity(warning.highest, "gaugePressure", units),
        formatQuantity(warning.marked, "gaugePressure", units),
      );
    case "tank-runs-empty":
      return `With a precharge of ${formatQuantity(warning.precharge, "gaugePressure", units)} the largest draws empty the tank before the pump has caught up: pressure falls to ${formatQuantity(warning.lowest, "gaugePressure", units)}. Stay lower with the charge, or start the pump earlier.`;
    case "volume-not-known":
      return "The tank's volume is not known, so what a change of tank or charge does is uncertain. Give the volume in the site facts.";
    case "far-from-what-was-seen":
      return `${sayChange(warning.change, units)} is far from what this log shows; the model has not been tried there.`;
  }
}

/** The same where there is little room; the unit stands beside it. */
export const MEASURE_SHORT: Readonly<Record<MeasureId, string>> = {
  "starts-per-hour": "Starts",
  "short-cycles-per-hour": "Short cycles",
  "oscillation-peak-to-peak": "Worst swing, crest to trough",
  "share-oscillating": "Running time that oscillates",
  "drift-at-steady-flow": "Worst drift",
  "lowest-pressure": "Lowest pressure",
  "highest-pressure": "Highest pressure",
  "stored-water": "Water from the tank per rest",
};

/** Hours that the trace shows closely. */
export type StretchId = "busiest" | "first" | "swinging";

/** What a change is called beside its slider. */
export const changeName = (id: ChangeId): string => (id === "gain" ? "Loop gain, times what it is" : CHANGE_NAMES[id].name);

/** A value of a change in the reader's units; a gain is a ratio to what it is. */
export const sayChangeValue = (id: ChangeId, value: number, units: UnitChoice): string =>
  id === "gain" ? formatOwn(Number(value.toPrecision(2)), units.locale) : formatQuantity(value, CHANGE_NAMES[id].shown, units);

/** What moving it means on site, where the name does not say it. */
export const CHANGE_HELP: Readonly<Record<ChangeId, string>> = {
  precharge: "Water side without pressure when it is changed.",
  "tank-volume": "All tanks together, charged as now.",
  "sensor-distance": "",
  "pipe-bore": "",
  gain: "Halved is calmer and slower.",
  "integral-time": "Longer is calmer and slower.",
  "sleep-delay": "How long the drive waits at low draw before it stops.",
  "set-pressure": "",
  "restart-pressure": "",
  leak: "0 is a tight system.",
};

export const WHAT_IF_WORDS = {
  caution:
    "A model of pump, tank, pipe and control is fitted to this record and run again with every change. It gives a direction and a size, not a promise: the pressure marked on the tank and the equipment's own instructions stand above it.",
  beforeItIsDone: "Before any of this is done on site:",
  fitting: "The model is being fitted to this record.",
  running: "Being worked out.",
  refused: {
    "no-model": "This log has no pressure, or does not show when the pump ran: there is nothing to fit a model to.",
    "draw-not-known": "The model cannot be run over this stretch: what was drawn is not known there. Log the flow, or the pump's speed.",
    gone: "The record is no longer at hand. Bring the log in again.",
  },
  table: "What the change does",
  recorded: "Recorded",
  model: "Model as it is",
  changed: "With the change",
  notKnown: "not known",
  groups: { tank: "Tank", control: "Drive", sensor: "Sensor and pipe", losses: "Losses" },
  asValue: "as a value",
  asItIs: (text: string) => `As it is: ${text}.`,
  writeIt: (example: string) => `Write it with its unit, like ${example}.`,
  putBack: "Put back",
  putAllBack: "Put all back",
  takeBack: "Change it again as before",
  propose: "Propose the smallest change",
  searching: "Looking for the smallest change that meets the limits.",
  nothingFound: "Nothing could be proposed.",
  stretch: "The trace shows",
  stretches: { busiest: "the hour with most starts", first: "the first hour", swinging: "the hour of the longest oscillation" },
  over: {
    whole: "The numbers are worked out over the whole record.",
    days: "This record is long: the numbers are worked out over the three days around its busiest hour.",
  },
  fitted: "What the model was fitted with",
  notRun: "The model could not be run against the log.",
  explains: (share: string) => `The fitted model explains ${share} of the pressure's variance, one pump cycle at a time.`,
  between: (value: string, low: string, high: string) => `${value} (${low} to ${high})`,
  done: (changes: readonly string[]) => (changes.length === 0 ? "" : `Worked out: ${changes.join("; ")}.`),
} as const;
