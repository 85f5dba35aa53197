import { inOrderOfWeight } from "../../../analysis/document/story-part";
import type { Analysis } from "../../../shared/findings/analysis";
import { breaksLimit } from "../../../shared/findings/breaks-limit";
import type { CannotTell } from "../../../shared/findings/cannot-tell";
import type { Finding, FindingKind, Outcome } from "../../../shared/findings/finding";
import type { Clock } from "../../../shared/record/clock";
import { type FactKey, isFactKey } from "../../../shared/site/fact-key";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { type Calculation, calculationOf } from "../../../shared/wording/calculation";
import { sayCannotTell } from "../../../shared/wording/cannot-tell";
import { METHODS, QUESTIONS, type Said, sayFinding, WRONG_IF } from "../../../shared/wording/finding";
import { sharpenedBy, sharpeningFact } from "../../../shared/wording/sharpened-by";

/** One finding as the story tells it, with everything that opens under it. */
export type StoryLine = {
  readonly finding: Finding;
  readonly title: string;
  /** What a reader in a hurry needs of the text; the rest of it stands with the calculation. */
  readonly lead: string;
  readonly more: string;
  /** Whether it breaks a limit of the site; null where there is no limit for it. */
  readonly overLimit: boolean | null;
  readonly method: string;
  readonly basis: readonly string[];
  readonly calculation: Calculation;
  readonly wrongIf: string;
  readonly sharpen: { readonly by: string; readonly fact: FactKey } | null;
  /** What this log leaves open beside it. */
  readonly openEnds: readonly string[];
};

/** The findings in the order in which they should be read: safety, then what breaks a limit, then the rest. */
export function storyLines(analysis: Analysis, clock: Clock, units: UnitChoice): readonly StoryLine[] {
  const { outcomes, site } = analysis;
  return inOrderOfWeight(outcomes, site)
    .map((finding) => ({ finding, said: sayFinding(finding, units) }))
    .filter(({ said }) => saysSomething(said))
    .map(({ finding, said }) => ({
      finding,
      title: said.title,
      lead: said.lead,
      more: said.text.slice(said.lead.length).trim(),
      overLimit: breaksLimit(finding, site),
      method: METHODS[finding.kind],
      basis: finding.channels,
      calculation: calculationOf(finding, { site, clock, units }),
      wrongIf: WRONG_IF[finding.kind],
      sharpen: sharpening(finding.kind, analysis),
      openEnds: limitsOf(outcomes, finding.kind).map((limit) => sayCannotTell(limit, units)),
    }));
}

/** Worth knowing, but no ground for a decision by themselves; what the tank's gas tells is weighed among the causes. */
const BACKGROUND: readonly FindingKind[] = ["tank-charge", "sensor", "pump-performance", "demand"];

/** What was found while the rest is still looked for, in a line each; what stands aside later is not told now. */
export const foundSoFar = (found: readonly Finding[], units: UnitChoice): readonly string[] =>
  found
    .filter(({ kind }) => !BACKGROUND.includes(kind))
    .map((finding) => sayFinding(finding, units))
    .filter(saysSomething)
    .map(({ title }) => title);

/** The findings as a reader in a hurry needs them: what breaks a limit, what has none, and aside what keeps its limit or is background. */
export function byWeight(lines: readonly StoryLine[]): Readonly<Record<"over" | "open" | "aside", readonly StoryLine[]>> {
  const isAside = ({ finding, overLimit }: StoryLine) => overLimit === false || BACKGROUND.includes(finding.kind);
  return {
    over: lines.filter(({ overLimit }) => overLimit === true),
    open: lines.filter((line) => line.overLimit !== true && !isAside(line)),
    aside: lines.filter((line) => line.overLimit !== true && isAside(line)),
  };
}

/** Of a scanty log a question may have been looked into without one number to show for it: a bare headline is no finding to a reader. */
const saysSomething = ({ title, text }: Said): boolean => text !== "" || /\d/.test(title);

function sharpening(kind: FindingKind, { site }: Analysis): StoryLine["sharpen"] {
  const by = sharpenedBy(kind, site);
  const fact = sharpeningFact(kind, site);
  return by !== null && fact !== null && isFactKey(fact) ? { by, fact } : null;
}

function limitsOf(outcomes: readonly Outcome[], kind: FindingKind): readonly CannotTell[] {
  return outcomes.flatMap((outcome) => (outcome.kind === kind && outcome.state === "found" ? outcome.limits : []));
}

/** Questions that were asked and found nothing: also an answer. */
export const clearQuestions = (outcomes: readonly Outcome[]): readonly string[] =>
  outcomes.flatMap((outcome) => (outcome.state === "clear" ? [QUESTIONS[outcome.kind]] : []));

/** Everything the log cannot show that no finding has said already, each sentence once. */
export function cannotShow(all: readonly CannotTell[], lines: readonly StoryLine[], units: UnitChoice): readonly string[] {
  const said = new Set(lines.flatMap((line) => line.openEnds));
  return [...new Set(all.map((one) => sayCannotTell(one, units)))].filter((sentence) => !said.has(sentence));
}
