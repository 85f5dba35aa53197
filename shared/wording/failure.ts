import type { FailedPart, Failure } from "../findings/failure";
import { FINDING_KINDS, type FindingKind } from "../findings/finding";
import { QUESTIONS } from "./finding";

const isKind = (id: string): id is FindingKind => FINDING_KINDS.some((kind) => kind === id);

const SEGMENTS: Readonly<Record<string, string>> = {
  drive: "When the pump ran by what its drive shows",
  "meter-place": "On which side of the tank the flow meter stands",
  pump: "When the pump ran",
  draw: "When water was drawn",
  steady: "When the draw was steady",
  tank: "What the tank gave while the pump stood",
};

const PARTS: { readonly [P in FailedPart]: (id: string) => string } = {
  fault: (id) =>
    `Stretches of the log with the fault "${id.replaceAll("-", " ")}" could not be looked for, so that figures may rest on some`,
  segment: (id) => `${SEGMENTS[id] ?? id} could not be worked out, nor what leans on it`,
  detector: (id) => `The question "${isKind(id) ? QUESTIONS[id] : id}" has no answer`,
  observation: (id) => `"${id.replaceAll("-", " ")}" could not be weighed for or against any cause`,
  causes: () => "No causes could be ranked",
  "check-between-causes": () => "What would settle between the causes could not be worked out",
  rule: (id) => `The step "${id.replaceAll("-", " ")}" could not be considered`,
  acceptance: (id) => `A line of the acceptance sheet (${id.replaceAll("-", " ")}) is missing`,
};

const LONGEST = 200;

/** What is missing from an analysis because the program failed there, and that the rest does not lean on it. */
export function sayFailure({ part, id, message }: Failure): string {
  return `${PARTS[part](id)}: this program failed there (${message.slice(0, LONGEST)}). The rest was worked out without it.`;
}

/** A log on which the program failed altogether. */
export const sayDefect = (file: string, message: string): string => `${file} met a defect of this program: ${message.slice(0, LONGEST)}`;
