import type { Advice } from "../findings/advice";

const STEPS: Readonly<Record<Advice["step"], string>> = { look: "Look", measure: "Measure", change: "Change", bring: "Bring along" };

/** The kind of a step, in a verb. */
export const sayStep = (step: Advice["step"]): string => STEPS[step];

/** How far the checklist is: "2 of 5 steps done". */
export const sayDone = (done: number, all: number): string => (done === all ? `All ${all} steps done` : `${done} of ${all} steps done`);
