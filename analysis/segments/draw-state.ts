import type { CannotTell } from "../../shared/findings/cannot-tell";
import type { Draw, DrawState, MeterPlace, PumpState } from "../../shared/findings/segment";
import type { Span } from "../../shared/findings/span";
import { channelsOf, mainChannel } from "../../shared/record/find-channel";
import type { LogFault } from "../../shared/record/log-fault";
import type { Channel, LogRecord } from "../../shared/record/log-record";
import { indexAtOrAfter, timeAt } from "../../shared/record/sampling";
import { cubicMetre, cubicMetrePerSecond } from "../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { drawsFromPressure } from "./draws-from-pressure";
import { flowThresholds } from "./flow-thresholds";
import { heldInTime } from "./held-in-time";
import { runsOf } from "./switching";
import { cumulativeVolume, volumeBetween } from "./volume";

/**
 * When water was drawn: from the flow of a meter after the tank (or of a meter without a pressure or pump beside it, a fixture's own),
 * else from the fall of pressure while the pump rests. A base flow that never stops is no draw; draws lie over it.
 */
export function findDrawState(
  record: LogRecord,
  faults: readonly LogFault[],
  pump: PumpState | CannotTell,
  meter: MeterPlace,
): DrawState | CannotTell {
  const flow = mainChannel(record, "flow");
  const alone = channelsOf(record, "pressure").length === 0;
  if (flow !== null && (meter.place === "after-tank" || (meter.place === null && alone))) {
    const state = drawsFromFlow(flow, faults);
    if (state !== null) return state;
    if (alone) return { id: "nothing-to-see", about: "leak", detail: { missing: "resting-flow" } };
  }
  return drawsFromPressure(record, faults, pump);
}

function drawsFromFlow(flow: Channel, faults: readonly LogFault[]): DrawState | null {
  const values = valuesWithoutSpikes(flow, faults);
  const thresholds = flowThresholds(heldInTime(values, flow.sampling));
  if (thresholds === null) return null;
  const stretches = stretchesOf(flow, faults);
  const runs = runsOf(values, flow.sampling, stretches, thresholds);
  const volume = cumulativeVolume(flow, values);
  const draws = runs.map(
    (run): Draw => ({
      ...run,
      volume: cubicMetre(volumeBetween(flow.sampling, volume, values, run.from, run.to)),
      peakFlow: cubicMetrePerSecond(peak(flow, values, run)),
    }),
  );
  return { basis: "flow", draws, idle: stretches.flatMap((stretch) => without(stretch, runs)) };
}

function peak({ sampling }: Channel, values: ArrayLike<number>, { from, to }: Span): number {
  let highest = 0;
  for (let i = indexAtOrAfter(sampling, from); i < values.length && timeAt(sampling, i) <= to; i++)
    if (values[i] > highest) highest = values[i];
  return highest;
}

/** What is left of a stretch without the runs, which are in order of time. */
function without(stretch: Span, runs: readonly Span[]): Span[] {
  const rest: Span[] = [];
  let { from } = stretch;
  for (const run of runs) {
    if (run.to <= stretch.from || run.from >= stretch.to) continue;
    if (run.from > from) rest.push({ from, to: run.from });
    from = run.to;
  }
  if (from < stretch.to) rest.push({ from, to: stretch.to });
  return rest;
}
