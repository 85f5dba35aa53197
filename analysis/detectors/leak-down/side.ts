import type { LeakDownFinding } from "../../../shared/findings/finding";
import { type Span, spanLength } from "../../../shared/findings/span";
import { mainChannel } from "../../../shared/record/find-channel";
import type { CubicMetrePerSecond } from "../../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../../faults/observed";
import { withoutTremble } from "../../segments/flow-thresholds";
import { cumulativeVolume, volumeBetween } from "../../segments/volume";
import type { Evidence } from "../detector";

const MOST = 0.5; // of the loss, seen by the meter
const HARDLY = 0.2; // of the loss, seen by the meter

/** A meter after the tank that sees most of the loss: system; hardly any of it, though it has shown as little elsewhere (a meter starts at some flow only): back. Else unknown. */
export function sideOf(
  { record, faults, segments }: Evidence,
  leak: CubicMetrePerSecond,
  places: readonly Span[],
): LeakDownFinding["side"] {
  const meter = mainChannel(record, "flow");
  if (meter === null || segments.meter.place !== "after-tank") return "unknown";
  const values = valuesWithoutSpikes(meter, faults);
  const volume = cumulativeVolume(meter, values);
  const metered = places.filter((place) => stretchesOf(meter, faults).some((s) => s.from <= place.from && place.to <= s.to));
  const time = metered.reduce((sum, place) => sum + spanLength(place), 0);
  const seen = metered.reduce((sum, { from, to }) => sum + volumeBetween(meter.sampling, volume, values, from, to), 0) / time;
  if (seen > MOST * leak) return "system";
  return seen < HARDLY * leak && leastShown(values) < leak ? "back" : "unknown";
}

/** The least flow that a meter showed beside nothing, m3/s; readings that a tremble about zero makes are none. */
function leastShown(values: ArrayLike<number>): number {
  const flows = withoutTremble(values);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < flows.length; i++) if (flows[i] > 0 && flows[i] < least) least = flows[i];
  return least;
}
