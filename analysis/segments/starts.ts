import { isCannotTell, type PumpState, type Segments } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import type { Seconds } from "../../shared/units/quantity";

/** The pump state, or null where it cannot be had. */
export const knownPump = ({ pump }: Segments): PumpState | null => (isCannotTell(pump) ? null : pump);

/**
 * Instants at which the pump was seen to start, in order. A run that was already under way when a stretch of the record began has no start.
 * Of a run that began in sight and was cut later the start still counts.
 */
export function startsOf(pump: PumpState): Seconds[] {
  const begins = new Set<number>(pump.observed.map((span) => span.from));
  return pump.runs.filter((run) => !begins.has(run.from)).map((run) => run.from);
}

/** Rests between two runs, both ends seen: no border of a stretch lies between. */
export function restsOf(pump: PumpState): Span[] {
  const { runs, observed } = pump;
  const rests: Span[] = [];
  for (let i = 1, k = 0; i < runs.length; i++) {
    const { to } = runs[i - 1];
    const { from } = runs[i];
    while (k < observed.length && observed[k].to <= to) k++;
    if (k < observed.length && observed[k].from <= to && from < observed[k].to) rests.push({ from: to, to: from });
  }
  return rests;
}
