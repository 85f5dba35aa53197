import type { CauseId } from "../findings/cause";
import type { FindingKind } from "../findings/finding";

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
  healthy: "nothing was found that needs repair",
};

/** Cautions that concern people who are not in the trade. */
export const CUSTOMER_CAUTIONS: readonly string[] = [
  "Please leave the pressure tank's air valve, the relief valve and the control cabinet to qualified people.",
  "Local rules for electrical and plumbing work come first.",
];
export const OVER_PRESSURE_CAUTION =
  "Keep away from the pressure tank and switch the pump off at its isolator until a qualified person has been.";
