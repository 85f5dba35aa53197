import type { Advice } from "../../shared/findings/advice";
import type { Cause } from "../../shared/findings/cause";
import { attempt, type OnFailure, raise } from "../../shared/findings/failure";
import type { Outcome } from "../../shared/findings/finding";
import type { Segments } from "../../shared/findings/segment";
import type { SiteFacts } from "../../shared/site/site-facts";
import type { Basis, Rule } from "./rule";
import { RULES } from "./rules";

/** A cause below this deserves no step. */
const LEAST_CONFIDENCE = 0.1;
/** Nothing is changed or brought for a cause below this: looking and measuring come first. */
const LEAST_FOR_CHANGE = 0.3;
/** A cause that holds besides the first with this chance deserves its own steps, whatever its share of the confidence. */
const BESIDE_FIRST = 0.7;
/** More steps than this for one visit is no advice. */
const MOST_CAUSES = 3;

const STEPS: readonly Advice["step"][] = ["look", "measure", "change", "bring"];
const SAFETY: Advice["id"] = "stop-over-marked-pressure";

const deserving = (causes: readonly Cause[]): Cause[] =>
  causes.filter((c, i) => i === 0 || c.confidence >= LEAST_CONFIDENCE || (c.besideFirst ?? 0) >= BESIDE_FIRST).slice(0, MOST_CAUSES);

const acts = (rule: Rule) => rule.step === "change" || rule.step === "bring";
const strong = (cause: Cause) => cause.confidence >= LEAST_FOR_CHANGE || (cause.besideFirst ?? 0) >= BESIDE_FIRST;

function adviceOf(rule: Rule, basis: Basis, worth: readonly Cause[]): Advice[] {
  const cause = rule.answers.length === 0 ? worth[0] : worth.find((c) => rule.answers.includes(c.id));
  if (cause === undefined || (acts(rule) && !strong(cause))) return [];
  const proposal = rule.propose(basis, cause);
  if (proposal === null) return [];
  const safety = rule.id === SAFETY;
  return [
    {
      id: rule.id,
      answers: rule.answers,
      step: rule.step,
      ...proposal,
      effect: null,
      because: safety
        ? { cause: null, confidence: null, reason: null }
        : { cause: cause.id, confidence: cause.confidence, reason: cause.for[0] ?? null },
    },
  ];
}

/** Safety first; then look, measure, change, bring; within a step the likelier cause first, so that one thing is changed at a time. */
function inOrder(a: Advice, b: Advice): number {
  const rank = (x: Advice) => (x.id === SAFETY ? -1 : STEPS.indexOf(x.step));
  return rank(a) - rank(b) || (b.because.confidence ?? 0) - (a.because.confidence ?? 0);
}

/** Rules that hold without any cause: a limit passed is said even where no cause may be named. */
const NO_CAUSE: Cause = { id: "healthy", confidence: 0, besideFirst: null, for: [], against: [], toSeparate: null };

/**
 * What to do on the next visit, in the order of the work, with amounts worked out for this site and the cautions of each step.
 * @param causes as `diagnose` gives them; empty where no cause may be named, and then only safety is spoken of
 */
export function advise(
  causes: readonly Cause[],
  outcomes: readonly Outcome[],
  segments: Segments,
  site: SiteFacts,
  onFailure: OnFailure = raise,
): Advice[] {
  const basis: Basis = { causes, outcomes, segments, site };
  const rules = causes.length === 0 ? RULES.filter((rule) => rule.id === SAFETY) : RULES;
  const worth = causes.length === 0 ? [NO_CAUSE] : deserving(causes);
  return rules.flatMap((rule) => attempt("rule", rule.id, onFailure, () => adviceOf(rule, basis, worth), [])).sort(inOrder);
}
