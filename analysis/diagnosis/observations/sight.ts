import type { FindingKind, FindingOf, Outcome } from "../../../shared/findings/finding";
import { findingOf } from "../../../shared/findings/finding";
import type { LevelOf, Numbers, Observation, ObservationId } from "../../../shared/findings/observation";
import { type DrawState, isCannotTell, type PumpState, type Segments } from "../../../shared/findings/segment";
import type { LogRecord } from "../../../shared/record/log-record";
import type { SiteFacts } from "../../../shared/site/site-facts";

/** What was found, and what is known of the site. */
export type Seen = { readonly outcomes: readonly Outcome[]; readonly segments: Segments; readonly site: SiteFacts };
/** All that an observation may look at. */
export type Sight = Seen & { readonly record: LogRecord };

/** Answers one question; null where it cannot be asked of this log and these facts. */
export type Look<K extends ObservationId> = (sight: Sight) => { readonly level: LevelOf<K>; readonly numbers: Numbers } | null;
export type Looks = { readonly [K in ObservationId]: Look<K> };

export function observe<K extends ObservationId>(id: K, look: Look<K>, sight: Sight): Observation<K> {
  const seen = look(sight);
  return seen === null ? { id, level: null, numbers: {} } : { id, ...seen };
}

export const found = <K extends FindingKind>(sight: Seen, kind: K): FindingOf<K> | null => findingOf(sight.outcomes, kind);

/** The detector looked and there was nothing. */
export const isClear = (sight: Seen, kind: FindingKind): boolean => sight.outcomes.some((o) => o.kind === kind && o.state === "clear");

export const pumpOf = ({ segments }: Seen): PumpState | null => (isCannotTell(segments.pump) ? null : segments.pump);
export const drawsOf = ({ segments }: Seen): DrawState | null => (isCannotTell(segments.draw) ? null : segments.draw);

/** A pump that a pressure switch turns on and off, by the facts: only a switch has a cut-in and a cut-out. A drive is taken where nothing is said. */
export const isFixedSpeed = ({ pump, setPressure, restartPressure, cutIn, cutOut }: SiteFacts): boolean =>
  pump === "fixed-speed" || (pump === null && setPressure === null && restartPressure === null && (cutIn !== null || cutOut !== null));

/** Set pressure, Pa gauge, given or read from the log; null where neither is known. */
export const setPressureOf = (sight: Seen): number | null => sight.site.setPressure?.value ?? found(sight, "tracking")?.setPressure ?? null;

/** Pressure at which a fixed-speed pump starts, Pa gauge, given or read from the log. */
export const cutInOf = (sight: Seen): number | null => sight.site.cutIn?.value ?? found(sight, "cycling")?.cutIn?.value ?? null;
export const cutOutOf = (sight: Seen): number | null => sight.site.cutOut?.value ?? found(sight, "cycling")?.cutOut?.value ?? null;

/** The first level whose limit is not passed: levels [n + 1] from low to high, limits [n]. */
export function levelFor<L extends string>(value: number, limits: readonly number[], levels: readonly L[]): L {
  const at = limits.findIndex((limit) => value < limit);
  return levels[at < 0 ? levels.length - 1 : at];
}
