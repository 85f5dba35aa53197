import type { Level, ObservationId } from "../../shared/findings/observation";
import type { CauseTable } from "./causes/cause-table";
import { USUAL } from "./usual";

/** All judged weights are taken at this share: they are broad judgements, and observations of one log are not independent. */
export const BREADTH = 0.8;
/** Share of cases in which anything may be seen whatever the cause: no single answer can rule a cause out or in. */
export const SURPRISE = 0.05;

/** Answers of one question and the chance of each; sums to 1. */
export type Chances = Readonly<Record<string, number>>;

/**
 * Chance of each answer under a cause: the usual chance times e^weight, brought back to a sum of 1, mixed with a share of surprise.
 * Because it sums to 1, a question that was not asked leaves exactly the average over what it could have shown: missing channels widen.
 */
export function chances(usual: Chances, weights: Readonly<Record<string, number | undefined>> | undefined): Chances {
  if (weights === undefined) return usual;
  const raw = Object.entries(usual).map(([level, p]) => [level, p * Math.exp(BREADTH * (weights[level] ?? 0))] as const);
  const total = raw.reduce((sum, [, p]) => sum + p, 0);
  return Object.fromEntries(raw.map(([level, p]) => [level, (1 - SURPRISE) * (p / total) + SURPRISE * usual[level]]));
}

/** The cause's own chances for an observation; null where the cause has no say in it. */
export function ownChances(cause: CauseTable, id: ObservationId): Chances | null {
  const weights = cause.weights[id];
  return weights === undefined ? null : chances(USUAL[id], weights);
}

/** Log-likelihood ratio of an answer under a cause against any logged site; 0 where the cause has no say in it. */
export function logRatio(cause: CauseTable, id: ObservationId, level: Level): number {
  const own = ownChances(cause, id);
  const usual: Chances = USUAL[id];
  return own === null ? 0 : Math.log(own[level] / usual[level]);
}

/** The same where two causes hold at once: what only one has a say in follows that one, what both have a say in is the mean of both. */
export function logRatioOfPair(a: CauseTable, b: CauseTable, id: ObservationId, level: Level): number {
  const [first, second] = [ownChances(a, id), ownChances(b, id)];
  if (first === null || second === null) return logRatio(first === null ? b : a, id, level);
  const usual: Chances = USUAL[id];
  return Math.log((first[level] + second[level]) / 2 / usual[level]);
}
