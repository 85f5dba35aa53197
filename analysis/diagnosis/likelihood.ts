import type { Level, ObservationId } from "../../shared/findings/observation";
import { BACKGROUND } from "./background";
import type { CauseTable } from "./causes/cause-table";

/** Share of cases in which anything may be seen whatever the cause: no single answer can rule a cause out or in. */
export const SURPRISE = 0.03;
/** What kind of pump it is is no reading that noise can turn: only a wrong fact, far rarer, lets a drive's cause stand at a pressure switch. */
const SURPRISE_OF: Partial<Record<ObservationId, number>> = { "pump-kind": 0.001 };

/** Answers of one question and the chance of each; sums to 1. */
export type Chances = Readonly<Record<string, number>>;

/**
 * Chance of each answer under a cause: its chance by itself times e^weight, brought back to a sum of 1, mixed with a share of surprise.
 * Because it sums to 1, a question that was not asked leaves exactly the average over what it could have shown: missing channels widen.
 */
export function chances(
  background: Chances,
  weights: Readonly<Record<string, number | undefined>> | undefined,
  surprise = SURPRISE,
): Chances {
  if (weights === undefined) return background;
  const raw = Object.entries(background).map(([level, p]) => [level, p * Math.exp(weights[level] ?? 0)] as const);
  const total = raw.reduce((sum, [, p]) => sum + p, 0);
  return Object.fromEntries(raw.map(([level, p]) => [level, (1 - surprise) * (p / total) + surprise * background[level]]));
}

/** The cause's own chances for an observation; null where the cause has no say in it. */
export function ownChances(cause: CauseTable, id: ObservationId): Chances | null {
  const weights = cause.weights[id];
  return weights === undefined ? null : chances(BACKGROUND[id], weights, SURPRISE_OF[id]);
}

/** Ratio of an answer's chance under a hypothesis to its coming up by itself, by level. */
type Ratios = Readonly<Record<string, number>>;

const background = (id: ObservationId): Chances => BACKGROUND[id];
const ratiosTo = (id: ObservationId, own: Chances): Ratios =>
  Object.fromEntries(Object.entries(own).map(([level, p]) => [level, p / background(id)[level]]));

/** Worked out once a cause and an observation: the tables never change. */
const singles = new Map<string, Ratios>();
function ratiosOf(cause: CauseTable, id: ObservationId): Ratios | null {
  const key = `${cause.id} ${id}`;
  const known = singles.get(key);
  if (known !== undefined) return known;
  const own = ownChances(cause, id);
  if (own === null) return null;
  const ratios = ratiosTo(id, own);
  singles.set(key, ratios);
  return ratios;
}

/** Log-likelihood ratio of an answer under a cause against its coming up by itself; 0 where the cause has no say in it. */
export function logRatio(cause: CauseTable, id: ObservationId, level: Level): number {
  return Math.log(ratiosOf(cause, id)?.[level] ?? 1);
}
