import type { AdviceId } from "../../../shared/findings/advice";
import type { Cause, CauseId, CheckId, Reason } from "../../../shared/findings/cause";
import type { FactKey } from "../../../shared/site/fact-key";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { sayCause, sayToSeparate } from "../../../shared/wording/cause";
import { sayReason, sayWeight } from "../../../shared/wording/reason";
import { stepTitle } from "../../../shared/wording/step";
import { CAUSES_WORDS } from "../../../shared/wording/story";

/** A cause as the story tells it: how likely, why, why not, and what would settle it. */
export type CauseLine = {
  readonly id: CauseId;
  readonly name: string;
  readonly meaning: string;
  readonly confidence: number;
  /** In whole per cent; under one per cent said as such. */
  readonly share: string;
  /** Chance that it holds as well as the first; null where it need not be said. */
  readonly beside: string | null;
  readonly for: readonly string[];
  readonly against: readonly string[];
  /** What a reader in a hurry needs of them: the two that weigh most for it, and of those against it the one that weighs most and is more than a hint. */
  readonly strongest: { readonly for: readonly string[]; readonly against: readonly string[] };
  readonly toSeparate: string | null;
  readonly check: CheckId | null;
  /** The site fact that this check would bring: it can be entered where it is asked for. */
  readonly fact: FactKey | null;
};

/** Causes below this are listed by name only: nobody acts on them. */
export const WORTH_TELLING = 0.05;
/** From here on a second fault beside the first is more likely than not. */
const LIKELY_BESIDE = 0.5;
const MOST_TOLD = 4;
const MOST_FOR = 2;
const isHint = ({ weight }: Reason) => sayWeight(weight) === "a hint";

/** Checks whose result is a fact of the site. */
const CHECK_FACTS: Partial<Record<CheckId, FactKey>> = {
  "read-precharge": "precharge",
  "ask-precharge": "precharge",
  "measure-sensor-distance": "sensorToTank",
  "ask-set-pressure": "setPressure",
  "ask-tank-volume": "tankVolume",
  "ask-pump-flow": "pumpRatedFlow",
  "ask-pipe": "pipeInsideDiameter",
};

/** Checks that a step of the next visit is made of. */
const CHECK_STEPS: Partial<Record<CheckId, AdviceId>> = {
  "read-precharge": "check-precharge",
  "press-air-valve": "check-precharge",
  "shut-system-valve": "check-check-valve",
  "check-direction": "check-pump-direction",
  "read-input-settings": "check-sensor-scaling",
  "walk-the-consumers": "look-for-periodic-demand",
};

/**
 * Causes told in full, and the rest by name. The first is always told, however unsure.
 * @param steps of the next visit, in their order: a check that is one of them is told there, with its cautions
 */
export function causeLines(
  causes: readonly Cause[],
  units: UnitChoice,
  steps: readonly AdviceId[] = [],
): { readonly told: readonly CauseLine[]; readonly rest: readonly CauseLine[] } {
  const ranked = causes.toSorted((a, b) => b.confidence - a.confidence).map((cause) => causeLine(cause, units, steps));
  const worth = ranked.filter((line, i) => i === 0 || line.confidence >= WORTH_TELLING || line.beside !== null).slice(0, MOST_TOLD);
  return {
    told: worth.map((line, i) => (saidBefore(line, worth.slice(0, i)) ? { ...line, toSeparate: null, fact: null } : line)),
    rest: ranked.filter((line) => !worth.includes(line)),
  };
}

/** One check often parts the first from several: it is asked for once. */
const saidBefore = (line: CauseLine, before: readonly CauseLine[]) =>
  before.some((other) => other.check !== null && other.check === line.check);

function causeLine(cause: Cause, units: UnitChoice, steps: readonly AdviceId[]): CauseLine {
  const say = (reason: Reason) => sayReason(reason, units);
  const separate = sayToSeparate(cause.toSeparate, asInStep(cause.toSeparate, steps));
  return {
    id: cause.id,
    ...sayCause(cause.id),
    confidence: cause.confidence,
    share: sayShare(cause.confidence),
    beside: cause.besideFirst !== null && cause.besideFirst >= LIKELY_BESIDE ? sayShare(cause.besideFirst) : null,
    for: cause.for.map(say),
    against: cause.against.map(say),
    strongest: {
      for: cause.for.slice(0, MOST_FOR).map(say),
      against: cause.against.length === 0 ? [] : [isHint(cause.against[0]) ? CAUSES_WORDS.onlyHints : say(cause.against[0])],
    },
    toSeparate: separate === "" ? null : separate,
    check: cause.toSeparate?.check ?? null,
    fact: cause.toSeparate === null ? null : (CHECK_FACTS[cause.toSeparate.check] ?? null),
  };
}

function asInStep(toSeparate: Cause["toSeparate"], steps: readonly AdviceId[]): string | undefined {
  const step = toSeparate === null ? undefined : CHECK_STEPS[toSeparate.check];
  return step === undefined || !steps.includes(step) ? undefined : CAUSES_WORDS.asInStep(stepTitle(step), steps.indexOf(step) + 1);
}

/** "64 %", "under 1 %", "over 99 %": never a certainty that no log can give. */
export function sayShare(confidence: number): string {
  if (confidence < 0.01) return "under 1\u202f%";
  if (confidence > 0.99) return "over 99\u202f%";
  return `${Math.round(confidence * 100)}\u202f%`;
}

/** How a cause stood before the last fact was entered; null where it stands as it did. */
export function earlierShare(id: CauseId, now: readonly Cause[], before: readonly Cause[] | null): string | null {
  const share = (causes: readonly Cause[]) => sayShare(causes.find((cause) => cause.id === id)?.confidence ?? 0);
  if (before === null || before.length === 0) return null;
  return share(before) === share(now) ? null : share(before);
}
