import type { CauseId, Reason } from "../../shared/findings/cause";
import type { Level, Numbers, Observation, ObservationId } from "../../shared/findings/observation";
import { CAUSES } from "./causes";
import type { CauseTable } from "./causes/cause-table";
import { logRatio } from "./likelihood";

/** Below this a reason is not worth a sentence. */
const LEAST_WEIGHT = 0.2;

export type Known = { readonly id: ObservationId; readonly level: Level; readonly numbers: Numbers };
export type Ranked = {
  readonly id: CauseId;
  readonly confidence: number;
  readonly besideFirst: number | null;
  readonly for: readonly Reason[];
  readonly against: readonly Reason[];
};

const HEALTHY = CAUSES[CAUSES.length - 1];
const FAULTS = CAUSES.slice(0, -1);

const knownOnes = (observations: readonly Observation[]): Known[] =>
  observations.flatMap(({ id, level, numbers }) => (level === null ? [] : [{ id, level, numbers }]));

const scoreOf = (cause: CauseTable, known: readonly Known[]) =>
  Math.log(cause.prior) + known.reduce((sum, o) => sum + logRatio(cause, o.id, o.level), 0);

/** Healthy has no table of its own: what speaks for it is what speaks against the faults on average, and the other way round. */
function weightFor(cause: CauseTable, { id, level }: Known): number {
  if (cause !== HEALTHY) return logRatio(cause, id, level);
  return -Math.log(FAULTS.reduce((sum, c) => sum + Math.exp(logRatio(c, id, level)), 0) / FAULTS.length);
}

function reasonsOf(cause: CauseTable, known: readonly Known[]): Pick<Ranked, "for" | "against"> {
  const least = cause === HEALTHY ? LEAST_WEIGHT / 5 : LEAST_WEIGHT;
  const all = known.map((o): Reason => ({ ...o, weight: weightFor(cause, o) }));
  const strongest = (a: Reason, b: Reason) => Math.abs(b.weight) - Math.abs(a.weight);
  return { for: all.filter((r) => r.weight >= least).sort(strongest), against: all.filter((r) => r.weight <= -least).sort(strongest) };
}

/** Chance that a cause holds besides the first one: only what the first has no say in counts, against a sound site. */
function beside(cause: CauseTable, first: CauseTable, known: readonly Known[]): number | null {
  if (cause === HEALTHY || first === HEALTHY || cause === first) return null;
  const unexplained = known.filter((o) => first.weights[o.id] === undefined);
  const odds = Math.exp(scoreOf(cause, unexplained)) / HEALTHY.prior;
  return odds / (1 + odds);
}

/**
 * Posterior over all causes by Bayes' rule. Observations are taken as independent given the cause; that they are not quite is why the
 * tables are broad (`likelihood.ts`). An answer that speaks for a cause more than for any other never lowers it, and a missing answer
 * leaves the mean over what it could have shown. Two faults at once share the confidence; `besideFirst` says which hold side by side.
 * @returns every cause, likeliest first; with nothing known, the priors
 */
export function rank(observations: readonly Observation[]): Ranked[] {
  const known = knownOnes(observations);
  const scored = CAUSES.map((cause) => ({ cause, score: scoreOf(cause, known) })).sort((a, b) => b.score - a.score);
  const [best] = scored;
  const total = scored.reduce((sum, { score }) => sum + Math.exp(score - best.score), 0);
  return scored.map(({ cause, score }) => ({
    id: cause.id,
    confidence: Math.exp(score - best.score) / total,
    besideFirst: beside(cause, best.cause, known),
    ...reasonsOf(cause, known),
  }));
}
