import type { CauseId, Reason } from "../../shared/findings/cause";
import type { Level, Numbers, Observation, ObservationId } from "../../shared/findings/observation";
import { CAUSES } from "./causes";
import type { CauseTable } from "./causes/cause-table";
import { logRatio, logRatioOfPair } from "./likelihood";

/** Prior weight of all pairs of faults together, against all single faults together. */
const PAIRS_TO_SINGLES = 0.1;
/** Below this a reason is not worth a sentence. */
const LEAST_WEIGHT = 0.15;

export type Known = { readonly id: ObservationId; readonly level: Level; readonly numbers: Numbers };
export type Ranked = {
  readonly id: CauseId;
  readonly confidence: number;
  readonly for: readonly Reason[];
  readonly against: readonly Reason[];
};

export const knownOnes = (observations: readonly Observation[]): Known[] =>
  observations.flatMap(({ id, level, numbers }) => (level === null ? [] : [{ id, level, numbers }]));

/** A hypothesis: one cause, or two that hold at once. */
type Hypothesis = { readonly causes: readonly CauseTable[]; readonly score: number };

function hypotheses(known: readonly Known[]): Hypothesis[] {
  const faults = CAUSES.filter((c) => c.id !== "healthy");
  const single = CAUSES.map((cause) => ({
    causes: [cause],
    score: Math.log(cause.prior) + known.reduce((sum, o) => sum + logRatio(cause, o.id, o.level), 0),
  }));
  const share = (PAIRS_TO_SINGLES * 2) / (faults.length - 1);
  const pairs = faults.flatMap((a, i) =>
    faults.slice(i + 1).map((b) => ({
      causes: [a, b],
      score: Math.log((share * (a.prior + b.prior)) / 2) + known.reduce((sum, o) => sum + logRatioOfPair(a, b, o.id, o.level), 0),
    })),
  );
  return [...single, ...pairs];
}

/** Healthy has no table of its own: what speaks for it is what speaks against the faults on average, and the other way round. */
function weightFor(cause: CauseTable, { id, level }: Known): number {
  if (cause.id !== "healthy") return logRatio(cause, id, level);
  const faults = CAUSES.filter((c) => c.id !== "healthy");
  return -Math.log(faults.reduce((sum, c) => sum + Math.exp(logRatio(c, id, level)), 0) / faults.length);
}

function reasonsOf(cause: CauseTable, known: readonly Known[]): Pick<Ranked, "for" | "against"> {
  const least = cause.id === "healthy" ? LEAST_WEIGHT / 5 : LEAST_WEIGHT;
  const all = known.map((o): Reason => ({ ...o, weight: weightFor(cause, o) }));
  const strongest = (a: Reason, b: Reason) => Math.abs(b.weight) - Math.abs(a.weight);
  return {
    for: all.filter((r) => r.weight >= least).sort(strongest),
    against: all.filter((r) => r.weight <= -least).sort(strongest),
  };
}

/**
 * Posterior over all causes by Bayes' rule over single causes and pairs of them; where two hold at once each gets half of the pair's
 * share, so that all confidences sum to 1. Observations are taken as independent given the hypothesis; that they are not quite is why
 * the tables are broad (`likelihood.ts`).
 * @returns every cause, likeliest first; with nothing known, the priors
 */
export function rank(observations: readonly Observation[]): Ranked[] {
  const known = knownOnes(observations);
  const all = hypotheses(known);
  const best = all.reduce((most, h) => Math.max(most, h.score), Number.NEGATIVE_INFINITY);
  const weightOf = (h: Hypothesis) => Math.exp(h.score - best);
  const total = all.reduce((sum, h) => sum + weightOf(h), 0);
  const shares = new Map<CauseId, number>();
  for (const h of all) for (const { id } of h.causes) shares.set(id, (shares.get(id) ?? 0) + weightOf(h) / total / h.causes.length);
  return CAUSES.map((cause) => ({ id: cause.id, confidence: shares.get(cause.id) ?? 0, ...reasonsOf(cause, known) })).sort(
    (a, b) => b.confidence - a.confidence,
  );
}
