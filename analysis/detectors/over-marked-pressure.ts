import { type Span, spanLength } from "../../shared/findings/span";
import { channelsOf } from "../../shared/record/find-channel";
import { gaugePascal } from "../../shared/units/pressure";
import { seconds } from "../../shared/units/quantity";
import { stretchesOf, valuesWithoutSpikes } from "../faults/observed";
import { runsOf } from "../segments/switching";
import type { Detector } from "./detector";

/**
 * Recorded pressure above the working pressure marked on the tank. Any sample counts, but a single spike that the log's own faults explain does not.
 * Wrong where the sensor's scale is wrong, or where it stands far below or above the tank.
 */
export const overMarkedPressure: Detector<"over-marked-pressure"> = {
  kind: "over-marked-pressure",
  detect({ record, faults, site }) {
    const kind = "over-marked-pressure" as const;
    const channels = channelsOf(record, "pressure");
    if (site.tankRatedPressure === null) {
      // Nothing is hidden by the log here: the acceptance sheet asks for the fact.
      return { kind, state: "cannot-tell", because: [] };
    }
    if (channels.length === 0) return { kind, state: "cannot-tell", because: [{ id: "no-pressure-channel", about: "tank", detail: {} }] };
    const marked = site.tankRatedPressure.value;
    const seen = channels.map((channel) => {
      const values = valuesWithoutSpikes(channel, faults);
      const over = { on: marked * (1 + 1e-9), off: marked, at: marked };
      const places: Span[] = runsOf(values, channel.sampling, stretchesOf(channel, faults), over).map(({ from, to }) => ({ from, to }));
      return { heading: channel.heading, places, highest: highestOf(values) };
    });
    const worst = seen.reduce((a, b) => (b.highest > a.highest ? b : a));
    if (worst.places.length === 0) return { kind, state: "clear", limits: [] };
    const total = seconds(worst.places.reduce((sum, span) => sum + spanLength(span), 0));
    const finding = { kind, places: worst.places, channels: [worst.heading], marked, highest: gaugePascal(worst.highest), total };
    return { kind, state: "found", finding, limits: [] };
  },
};

function highestOf(values: ArrayLike<number>): number {
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) if (values[i] > highest) highest = values[i];
  return highest;
}
