import { useCallback, useMemo } from "react";
import type { Span } from "../../../shared/findings/span";
import { formatQuantity } from "../../../shared/units/format-quantity";
import { BAND_WORDS } from "../../../shared/wording/band";
import { sayFaultNote } from "../../../shared/wording/fault-note";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import type { Band, BandPlace } from "../../charts/bands";
import { instantLabel, labelsIn, type TimeTick, timeTicks } from "../../charts/time-axis";
import type { Preferences } from "../../state/preferences";
import type { RecordOutline } from "../../worker/messages";
import { finestInterval, type TraceModel } from "./trace-model";

/** How the trace writes times and places for this person. */
export type TraceWords = {
  /** Time since the record began rather than the site's clock. */
  readonly elapsed: boolean;
  ticks(window: Span): readonly TimeTick[];
  tickTimes(window: Span): readonly number[];
  sayInstant(t: number): string;
  sayPlace(band: Band, place: BandPlace): string;
};

export function useTraceWords(outline: RecordOutline, model: TraceModel, preferences: Preferences, plotWidth: number): TraceWords {
  const { units } = preferences;
  const { clock } = outline;
  const elapsed = preferences.clock === "elapsed" || clock.kind === "elapsed";
  const resolution = finestInterval(model.channels);
  const ticks = useCallback(
    (window: Span) => timeTicks(window, clock, elapsed, (letters) => labelsIn(plotWidth, letters), units.locale),
    [clock, elapsed, plotWidth, units],
  );
  return useMemo(() => {
    const sayInstant = (t: number) => instantLabel(t, clock, elapsed, resolution, units.locale);
    return {
      elapsed,
      ticks,
      tickTimes: (window) => ticks(window).map(({ at }) => at),
      sayInstant,
      sayPlace: (band, { from, to, note }) =>
        TRACE_WORDS.place(
          BAND_WORDS[band.kind].place,
          sayInstant(from),
          formatQuantity(to - from, "time", units),
          note === null ? null : sayFaultNote(note, units.locale),
        ),
    };
  }, [clock, elapsed, resolution, units, ticks]);
}
