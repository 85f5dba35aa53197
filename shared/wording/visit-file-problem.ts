import type { LostPart, VisitFileProblem } from "../problems/visit-file-problem";

/** Why a visit file is refused, and what to do. */
export function sayVisitFileProblem(problem: VisitFileProblem, file: string): string {
  switch (problem.id) {
    case "empty":
      return `${file} is empty. Save the visit again where it was made.`;
    case "not-a-visit":
      return `${file} is not a visit saved by Evenhead. If it is a log, bring it in as a log.`;
    case "newer-version":
      return `${file} was saved in version ${problem.version} of the visit form; this Evenhead knows versions up to ${problem.known}. Open it with a newer Evenhead.`;
    case "nothing-left":
      return `${file} is damaged beyond use: no part of the visit in it can be read. Save the visit again where it was made.`;
    case "archive-damaged":
      return `${file} is damaged: its list of visits cannot be read. Save the visits again where they were made.`;
    case "entry-damaged":
      return `${file} is damaged in its archive; the other visits were read. Save it again where it was made.`;
    case "too-large":
      return `${file} is larger than a browser can open as one visit. Open its log as a log instead.`;
    case "cannot-open":
      return `${file} could not be opened (${problem.why}). Check its name.`;
    case "without-log":
      return `${file} holds no log, so that nothing can be worked out again. Save the visit once more with the log itself.`;
    case "log-damaged":
      return `${file}: the log in it is damaged. Save the visit again where it was made.`;
  }
}

const PARTS: ReadonlyMap<string, string> = new Map([
  ["about", "the name and date of the visit"],
  ["site", "the site facts"],
  ["choices", "your corrections of how the log was read"],
  ["checklist", "the checklist with its notes and readings"],
  ["findings", "the findings"],
  ["measures", "what a comparison with another visit needs"],
  ["before", "the earlier visit it was compared with"],
  ["trace", "the small picture of the trace"],
  ["log", "the log itself"],
]);

const WHY: Readonly<Record<LostPart["why"], string>> = {
  unreadable: "damaged and left out",
  changed: "not as it was saved, and left out",
  "wrong-shape": "not of the known form, and left out",
  missing: "not in the file",
};

/** What was lost of a visit file, a sentence a part. */
export const sayLostPart = (lost: LostPart): string => `${capital(PARTS.get(lost.part) ?? `"${lost.part}"`)}: ${WHY[lost.why]}.`;

const capital = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
