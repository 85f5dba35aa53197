import type { Advice, AdviceId } from "../../shared/findings/advice";
import type { Cause, CauseId } from "../../shared/findings/cause";
import type { Seen } from "../diagnosis/observations/sight";

/** All that a recommendation may look at. */
export type Basis = Seen & {
  readonly causes: readonly Cause[];
  /** Highest pressure that the fitted model reaches as the site stands, Pa gauge; left out or null where it was not run. */
  readonly predicted?: number | null;
};

/** What a rule fills in; id, step and the cause answered are known from the rule itself. */
export type Proposal = Pick<Advice, "amounts" | "trust" | "expect" | "sources" | "cautions">;

/** One recommendation. No fact, no amount; and where the facts show that the step is not needed, no proposal. */
export type Rule = {
  readonly id: AdviceId;
  /** Causes it answers; empty where it follows from a limit of the site or from what is not known. */
  readonly answers: readonly CauseId[];
  readonly step: Advice["step"];
  /** @param cause the likeliest of those it answers that deserves a step; for a rule that answers none, the likeliest of all */
  propose(basis: Basis, cause: Cause): Proposal | null;
};

/** A proposal without amounts, trust or expectation, to be changed where there are some. */
export const PLAIN: Pick<Proposal, "amounts" | "trust" | "expect"> = { amounts: [], trust: null, expect: null };
