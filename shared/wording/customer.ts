import type { AcceptanceId } from "../findings/acceptance";
import type { AdviceId } from "../findings/advice";
import type { CauseId } from "../findings/cause";
import type { MeasureId, Verdict } from "../findings/comparison";
import type { FindingKind } from "../findings/finding";
import { withSmallInitial } from "./small-initial";

/** What a finding means for the people who use the water, without jargon; null where it does not concern them. */
export const FOR_CUSTOMER: { readonly [K in FindingKind]: string | null } = {
  "over-marked-pressure": "The pressure went above what the tank is marked for. This has to be put right first.",
  cycling: null,
  "short-cycles": "The pump often runs for only a short time. That wears it out and can be heard and felt.",
  oscillation: "The water pressure surges up and down.",
  drift: "The pressure changes although the same amount of water is being used.",
  tracking: null,
  "tank-charge": null,
  "leak-down": "The system loses water or pressure while nobody uses any.",
  sensor: "The pressure sensor does not show the true pressure.",
  "pump-performance": "At times the pump could not deliver what was needed.",
  demand: null,
};

/** The likeliest cause in plain words. */
export const CAUSE_FOR_CUSTOMER: { readonly [K in CauseId]: string } = {
  "tank-too-small": "the pressure tank is too small for this pump",
  "precharge-low": "the air in the pressure tank has run low",
  "precharge-high": "the air in the pressure tank is set too high",
  "tank-waterlogged": "the pressure tank has lost its air and filled with water",
  "sensor-far-from-tank": "the pressure sensor sits too far from the tank",
  "sensor-in-turbulence": "the pressure sensor sits in a spot where the water swirls",
  "sensor-port-plugged": "the small opening to the pressure sensor is clogged",
  "sensor-frozen-or-stuck": "the pressure sensor has stuck, possibly from frost",
  "sensor-scaling-wrong": "the pressure sensor and the control do not agree on its range",
  "loop-too-aggressive": "the pump control reacts too strongly",
  "loop-too-slow": "the pump control reacts too slowly",
  "leak-or-check-valve": "water leaks, or flows back through a valve that should hold it",
  "demand-is-periodic": "something on the premises draws water at regular intervals",
  "sleep-settings-hunting": "the pump control switches the pump off and on again too eagerly",
  "loss-of-prime": "the pump at times sucks in air",
  "pump-turning-backwards-or-weak": "the pump delivers too little, possibly because it turns the wrong way",
  "undersized-pump-or-overdraw": "more water is drawn at times than the pump can deliver",
  healthy: "nothing is wrong with the system",
};

/** A step without jargon, and what the customer will notice of it; null where they will notice nothing. */
export const ADVICE_FOR_CUSTOMER: { readonly [K in AdviceId]: { readonly does: string; readonly expect: string | null } } = {
  "stop-over-marked-pressure": {
    does: "Before anything else, find out why the pressure went higher than the tank is marked for.",
    expect: null,
  },
  "check-precharge": {
    does: "Check the air charge of the pressure tank.",
    expect: "The water is off for about half an hour while the tank is checked.",
  },
  "raise-precharge": {
    does: "If the air charge has run low, fill it up.",
    expect: "The pump then runs and rests for longer, and the pressure is steadier. A tank that loses its air again has to be replaced.",
  },
  "lower-precharge": {
    does: "If the air charge is too high, let some out.",
    expect: "The pressure no longer drops just before the pump starts.",
  },
  "larger-tank": {
    does: "Fit a larger pressure tank, or a second one beside the first.",
    expect: "The pump then starts less often and runs for longer.",
  },
  "replace-tank": {
    does: "If the pressure tank has failed inside, replace it.",
    expect: "The pump then starts less often, and the pressure is steadier.",
  },
  "move-sensor": { does: "Move the pressure sensor close to the tank.", expect: "The pressure surges less." },
  "calm-sensor-place": { does: "Move the pressure sensor to a calmer place in the pipe.", expect: "The pump runs more smoothly." },
  "clear-sensor-port": { does: "Clean the small opening to the pressure sensor.", expect: "The pump answers to the true pressure again." },
  "protect-sensor-from-frost": {
    does: "Thaw the pressure sensor and protect it from frost.",
    expect: "The pump answers to the true pressure again, in frost too.",
  },
  "check-sensor-scaling": {
    does: "Check that the pressure sensor and the pump control agree with a gauge.",
    expect: "The pressure may stand a little higher or lower afterwards than you are used to.",
  },
  "lower-loop-gain": {
    does: "Make the pump control react more gently.",
    expect: "The pressure surges less; it may take a moment longer to recover when a tap is opened.",
  },
  "raise-loop-gain": { does: "Make the pump control react sooner.", expect: "The pressure recovers sooner when a tap is opened." },
  "lengthen-sleep-delay": {
    does: "Let the pump control wait longer before it stops the pump.",
    expect: "The pump starts less often; each time it runs on a little longer.",
  },
  "find-leak": {
    does: "Look for water that runs while nobody uses any.",
    expect: "The pump no longer starts while nobody uses water.",
  },
  "check-check-valve": {
    does: "Check the valve that keeps water from flowing back.",
    expect: "The water is off for a short while. Afterwards the pressure holds while nobody uses water.",
  },
  "restore-prime": { does: "Find out where the pump takes in air.", expect: "The water no longer fails or spits at the tap." },
  "check-pump-direction": { does: "Check that the pump turns the right way.", expect: "The pump gives the pressure it was built for." },
  "check-pump-size": {
    does: "Compare what is used at the busiest time with what the pump can give.",
    expect: "Until then, spreading large uses over the day keeps the pressure up.",
  },
  "look-for-periodic-demand": { does: "Find out what draws water at regular intervals.", expect: null },
  "log-more": { does: "Record the system once more, with what this record could not show.", expect: null },
  "nothing-to-change": { does: "No work is needed.", expect: null },
};

/** The checks in plain words, and whether a customer can feel what they look at; the others stand on the technical pages unless they are not kept. */
export const CHECKS_FOR_CUSTOMER: { readonly [K in AcceptanceId]: { readonly name: string; readonly canBeFelt: boolean } } = {
  "marked-pressure": { name: "Highest pressure", canBeFelt: true },
  "within-band": { name: "Share of pumping time with the pressure as it should be", canBeFelt: true },
  "worst-dip": { name: "Deepest fall of the pressure when a tap is opened", canBeFelt: false },
  "starts-per-hour": { name: "Most pump starts in one hour", canBeFelt: true },
  "short-cycles": { name: "Times the pump ran only briefly", canBeFelt: true },
  drift: { name: "Change of pressure while the same tap runs", canBeFelt: false },
  oscillation: { name: "Size of the surging", canBeFelt: true },
  "tank-volume": { name: "Size of the pressure tank for this pump", canBeFelt: false },
  precharge: { name: "Air charge of the pressure tank", canBeFelt: false },
  "sensor-distance": { name: "Distance of the pressure sensor from the tank", canBeFelt: false },
  "sensor-scaling": { name: "Agreement of the pressure sensor with the control", canBeFelt: false },
  "full-speed-head": { name: "Pressure that the pump can give", canBeFelt: false },
  prime: { name: "Times the pump sucked in air", canBeFelt: false },
  "leak-down": { name: "Water lost while nobody used any", canBeFelt: true },
};

export const NOTHING_FOUND = "Nothing in the record breaks the limits that were set.";
export const REASON_OPEN = "The record alone does not settle the reason; the next visit will narrow it down.";
/** Where nothing is proposed: all keeps its limits, or something does not and the record does not show what to change for it. */
export const NOTHING_PROPOSED = {
  kept: "No work is proposed.",
  worse: "What is worse than before is looked into at the next visit.",
  notKept: "What is outside its limit is looked into at the next visit: the record alone does not show what to change for it.",
} as const;
export const sayNotKept = (checks: readonly string[]): string =>
  `Outside ${checks.length === 1 ? "its limit" : "their limits"}: ${checks.map(withSmallInitial).join("; ")}.`;
export const sayRecorded = (days: string): string => `Your water system was recorded${days}.`;

export const VERDICT_FOR_CUSTOMER: { readonly [K in Verdict]: string } = {
  met: "Yes: what was compared keeps its limits now.",
  "better-but-not-met": "Yes, but not yet enough: it is better than before and does not keep every limit.",
  better: "Yes: it is better than before.",
  "no-change-shown": "The two records do not show a change.",
  worse: "No: something is worse than before.",
  "cannot-compare": "The two records cannot be compared; the technical pages say why.",
};

/** Where nothing in the later record breaks a limit, yet it is too short to show that none is broken at other times. */
export const BETTER_NOT_SHOWN = "Yes: it is better than before. A longer record would show whether it always keeps its limits.";

export const MEASURES_FOR_CUSTOMER: { readonly [K in MeasureId]: string } = {
  "starts-per-hour": "Pump starts per hour",
  "short-cycles-per-day": "Times a day that the pump ran only briefly",
  "oscillating-share": "Share of pumping time with surging",
  "oscillation-height": "Size of the surging",
  "drift-at-steady-flow": "Change of pressure while the same tap runs",
  "share-within-band": "Share of pumping time with the pressure as it should be",
};

/** Cautions that concern people who are not in the trade. */
export const CUSTOMER_CAUTIONS: readonly string[] = [
  "Please leave the pressure tank's air valve, the relief valve and the control cabinet to qualified people.",
  "Local rules for electrical and plumbing work come first.",
];
export const OVER_PRESSURE_CAUTION =
  "Keep away from the pressure tank and switch the pump off at its isolator until a qualified person has been.";
