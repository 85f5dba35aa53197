import type { Advice, AdviceId } from "../findings/advice";

const STEPS: Readonly<Record<Advice["step"], string>> = { look: "Look", measure: "Measure", change: "Change", bring: "Bring along" };

/** The kind of a step, in a verb. */
export const sayStep = (step: Advice["step"]): string => STEPS[step];

/** How far the checklist is: "2 of 5 steps done". */
export const sayDone = (done: number, all: number): string => (done === all ? `All ${all} steps done` : `${done} of ${all} steps done`);

const TITLES: Readonly<Record<AdviceId, string>> = {
  "stop-over-marked-pressure": "Stop: the tank's marked pressure",
  "check-precharge": "Read the precharge",
  "raise-precharge": "Raise the precharge",
  "lower-precharge": "Lower the precharge",
  "larger-tank": "A larger tank",
  "replace-tank": "A new tank, if water comes from the air valve",
  "move-sensor": "Move the sensor to the tank",
  "calm-sensor-place": "Move the sensor to a calm place",
  "clear-sensor-port": "Clear the sensor's port",
  "protect-sensor-from-frost": "Keep the sensor from frost",
  "check-sensor-scaling": "Compare the sensor's range and signal",
  "lower-loop-gain": "Lower the gain",
  "raise-loop-gain": "Raise the gain",
  "lengthen-sleep-delay": "Lengthen the delay before sleep",
  "find-leak": "Find the leak",
  "check-check-valve": "Try the check valve",
  "restore-prime": "Find where air comes in",
  "check-pump-direction": "See which way the pump turns",
  "check-pump-size": "Compare what is drawn with what the pump gives",
  "look-for-periodic-demand": "Find what draws in this rhythm",
  "log-more": "Learn more before changing anything",
  "nothing-to-change": "Change no setting",
};

export const isStepId = (id: string): id is AdviceId => Object.hasOwn(TITLES, id);

/** A step by name: what stands beside its tick. */
export const stepTitle = (id: AdviceId): string => TITLES[id];
