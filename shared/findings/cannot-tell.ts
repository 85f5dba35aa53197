/** Why a question stays open. The list is complete; each has a sentence in shared/wording/cannot-tell.ts that says what to log instead. */
export const CANNOT_TELL_IDS = [
  "sampling-too-slow",
  "record-too-short",
  "no-flow-channel",
  "no-pump-state",
  "quantised-too-coarse",
  "gaps-too-many",
  "clock-unreliable",
  "site-fact-missing",
  "no-pressure-channel",
  "nothing-to-see",
  "outside-model",
  "program-failed",
] as const;
export type CannotTellId = (typeof CANNOT_TELL_IDS)[number];

export const CANNOT_TELL_TOPICS = ["starts", "short-cycles", "oscillation", "drift", "tank", "leak", "cause"] as const;
export type CannotTellTopic = (typeof CANNOT_TELL_TOPICS)[number];

/** An honest "this log cannot show it". `detail` carries the numbers of its sentence, SI, by name. */
export type CannotTell = {
  readonly id: CannotTellId;
  readonly about: CannotTellTopic;
  /** Numbers and names for the sentence, e.g. { intervalS: 60, logEveryS: 2, missing: "tankVolume" }. */
  readonly detail: Readonly<Record<string, number | string>>;
};
