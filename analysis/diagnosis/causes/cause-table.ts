import type { CauseId } from "../../../shared/findings/cause";
import type { LevelOf, ObservationId } from "../../../shared/findings/observation";

/** For one observation: how much more (+) or less (-) often each answer comes up under the cause than by itself, natural logarithm. */
export type Weights<K extends ObservationId> = { readonly [L in LevelOf<K>]?: number };

/**
 * A cause as a table to read: which observations speak for and against it, and how strongly, measured against how often the answer comes
 * up by itself (`background.ts`). What a cause has no say in is left out and then weighs nothing. Weights are judged from the physics
 * named beside them, and their sizes then counted on simulated sites of many kinds (tests/bench/README.md): 0.3 or 0.5 a hint, 1 plain, 1.5 or 2
 * strong, 2.5 or 3 its mark. A count never turns a direction that physics gives. `likelihood.ts` bounds them.
 */
export type CauseTable = {
  readonly id: CauseId;
  /** How often it is met against the others, before the log is looked at. */
  readonly prior: number;
  readonly weights: { readonly [K in ObservationId]?: Weights<K> };
};
