import { LOOKS } from "../../analysis/diagnosis/observations";
import type { Outcome } from "../../shared/findings/finding";
import type { Numbers, ObservationId } from "../../shared/findings/observation";
import type { DrawState, PumpState } from "../../shared/findings/segment";
import type { LogRecord } from "../../shared/record/log-record";
import { recordOf, SITE_AS_WRITTEN, segmentsWith, siteOf, soundOutcomes } from "./outcomes";

/** A sound site with a drive, 52 psi, and what is unlike it. A fact set to undefined is not known; `only` leaves out what a sound site would show. */
export type Drawn = {
  readonly outcomes?: readonly Outcome[];
  readonly only?: readonly Outcome[];
  readonly pump?: PumpState | null;
  readonly draw?: DrawState | null;
  readonly facts?: Readonly<Record<string, unknown>>;
  readonly record?: LogRecord;
};

/** How a question is answered there; null where it cannot be asked. */
export function lookAt(id: ObservationId, drawn: Drawn = {}): { readonly level: string; readonly numbers: Numbers } | null {
  const { outcomes = [], only, pump = null, draw, facts = {}, record = recordOf() } = drawn;
  const site = siteOf({ ...SITE_AS_WRITTEN, ...facts });
  return LOOKS[id]({ outcomes: only ?? soundOutcomes(...outcomes), segments: segmentsWith(pump, draw), site, record });
}
export const levelAt = (id: ObservationId, drawn: Drawn = {}): string | null => lookAt(id, drawn)?.level ?? null;

/** A pressure switch between 40 and 60 psi. */
export const SWITCHED = { pump: "fixed-speed", setPressure: undefined, cutIn: "40 psi", cutOut: "60 psi" };
