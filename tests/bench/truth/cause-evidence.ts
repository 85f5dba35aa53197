import { observeAll } from "../../../analysis/diagnosis/observations";
import type { Sight } from "../../../analysis/diagnosis/observations/sight";
import { CAUSE_IDS, type CauseId } from "../../../shared/findings/cause";
import type { Observation } from "../../../shared/findings/observation";
import { seenCase } from "./case-cache";

/** What is known of a case beside its fault: roles logged, joined; what holds the pressure; time between readings of it, s. */
export function factsOfCase({ record, site }: Sight) {
  const channels = record.channels.map((c) => c.role).filter((role) => role !== "temperature");
  const isSwitch = site.pump === "fixed-speed" || (site.pump === null && site.cutIn !== null);
  const interval = record.duration / Math.max(1, record.channels[0].values.length - 1);
  return { channels: channels.join(" + "), pump: isSwitch ? ("switch" as const) : ("drive" as const), interval };
}

/** What the observations say of one simulated site. */
export type Evidence = { readonly truth: CauseId; readonly seed: number; readonly observations: readonly Observation[] };

/** Evidence of `count` sites a cause from a seed on. */
export const evidenceOf = (count: number, first: number): Evidence[] =>
  Array.from({ length: count }, (_, i) => first + i).flatMap((seed) =>
    CAUSE_IDS.map((truth) => ({ truth, seed, observations: observeAll(seenCase(truth, seed).sight) })),
  );
