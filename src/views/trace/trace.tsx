import { useCallback, useEffect, useMemo, useState } from "react";
import { findingOf } from "../../../shared/findings/finding";
import type { Span } from "../../../shared/findings/span";
import { NO_SITE_FACTS } from "../../../shared/site/read-site-facts";
import { formatQuantity, scaleOf } from "../../../shared/units/format-quantity";
import { BAND_WORDS } from "../../../shared/wording/band";
import { type Band, type BandPlace, bandsOf } from "../../charts/bands";
import type { ChartMark } from "../../charts/chart-spec";
import { PLOT_RIGHT } from "../../charts/chart-spec";
import { stripsOf } from "../../charts/strips";
import { instantLabel, timeTicks } from "../../charts/time-axis";
import { pressureMarks } from "../../charts/trace-marks";
import { type ReadRecord, shownVisit } from "../../state/visit-state";
import type { PageProps } from "../view-props";
import { Backdrop } from "./backdrop";
import { BandsView, LANE_HEIGHT, selected } from "./bands-view";
import { CursorLines } from "./cursor-lines";
import { Measure } from "./measure";
import { Overview } from "./overview";
import { pressKey } from "./press-key";
import { stripHeights } from "./strip-heights";
import { StripView } from "./strip-view";
import { TimeRuler } from "./time-ruler";
import { finestInterval, useTraceModel, useWidth } from "./trace-model";
import { TraceTools } from "./trace-tools";
import { around } from "./trace-window";
import { useGestures } from "./use-gestures";
import "./trace.css";

export type TraceProps = PageProps & { readonly read: ReadRecord };

const WIDE = 640;
const NO_SPANS: readonly Span[] = [];
const NO_BANDS: readonly Band[] = [];
const NO_MARKS: readonly ChartMark[] = [];

/** Every channel against time, each quantity on its own strip, with the bands under them and the whole record above. */
export function Trace({ read, state, preferences, dispatch, commands }: TraceProps) {
  const { units } = preferences;
  const { outline, traces } = read;
  const analysis = shownVisit(state.visit)?.analysis ?? null;
  const model = useTraceModel(read, commands.detail);
  const [width, measureWidth] = useWidth();
  const [stage, setStage] = useState<HTMLElement | null>(null);
  const [measure, setMeasure] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  const axisWidth = width >= WIDE ? 104 : 46;
  const plotWidth = Math.max(0, width - axisWidth - PLOT_RIGHT);
  useGestures(stage, model, { axisWidth, plotWidth, measure });

  const strips = useMemo(() => stripsOf(traces), [traces]);
  const bands = useMemo(() => (analysis === null ? NO_BANDS : bandsOf(analysis)), [analysis]);
  const site = analysis?.site ?? NO_SITE_FACTS;
  const marks = useMemo(() => {
    const { toShown } = scaleOf("gaugePressure", units);
    return pressureMarks(site, analysis, toShown, (si) => formatQuantity(si, "gaugePressure", units));
  }, [site, analysis, units]);
  const heights = stripHeights(strips, width >= WIDE);

  const elapsed = preferences.clock === "elapsed" || outline.clock.kind === "elapsed";
  const resolution = finestInterval(model.channels);
  const { locale } = units;
  const ticks = useCallback(
    (window: Span) => timeTicks(window, outline.clock, elapsed, Math.max(2, plotWidth / 84), locale),
    [outline, elapsed, plotWidth, locale],
  );
  const tickTimes = useCallback((window: Span) => ticks(window).map(({ at }) => at), [ticks]);
  const sayInstant = useCallback(
    (t: number) => instantLabel(t, outline.clock, elapsed, resolution, locale),
    [outline, elapsed, resolution, locale],
  );
  const sayPlace = useCallback(
    (band: Band, { from, to, note }: BandPlace) =>
      `${BAND_WORDS[band.kind].place}: ${sayInstant(from)}, for ${formatQuantity(to - from, "time", units)}${note === null || note === "" ? "" : `. ${note}`}`,
    [sayInstant, units],
  );

  const { selection, focus } = state;
  const lit = useMemo(
    () =>
      selection.finding === null || analysis === null ? NO_SPANS : (findingOf(analysis.outcomes, selection.finding)?.places ?? NO_SPANS),
    [selection.finding, analysis],
  );
  useEffect(() => {
    if (focus !== null) model.moveTo(around(focus.span, model.duration));
  }, [focus, model]);

  function showEvent(band: Band, place: BandPlace): void {
    model.cursor.set(place.from);
    model.moveTo(around(place, model.duration));
    dispatch({ do: "select", selection: selected(band, place) });
    setSaid(sayPlace(band, place));
  }

  const stageHeight = heights.reduce((sum, height) => sum + height + 22, 0) + bands.length * LANE_HEIGHT + 6;
  return (
    <section className="trace" aria-label="Trace">
      <TraceTools
        model={model}
        outline={outline}
        bands={bands}
        elapsed={elapsed}
        measure={measure}
        onMeasure={setMeasure}
        onEvent={showEvent}
      />
      {measure && <Measure model={model} strips={strips} bands={bands} units={units} plotWidth={plotWidth} />}
      <div ref={measureWidth}>
        <Overview model={model} channel={strips[0]?.channels[0] ?? 0} axisWidth={axisWidth} plotWidth={plotWidth} height={30} />
        <div
          ref={setStage}
          className="stage"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: the trace is moved by keys
          tabIndex={0}
          role="application"
          aria-label="Trace of all channels. Arrow keys move and zoom, Shift with arrows moves the reading line, M measures, 0 shows the whole record."
          onKeyDown={(event) => {
            if (event.target === event.currentTarget && !event.ctrlKey && !event.metaKey && pressKey(event.key, event.shiftKey, model)) {
              if (event.key === "m") setMeasure(true);
              event.preventDefault();
            }
          }}
        >
          <Backdrop
            model={model}
            lit={lit}
            chosen={selection.span}
            ticks={tickTimes}
            axisWidth={axisWidth}
            plotWidth={plotWidth}
            height={stageHeight}
          />
          {strips.map((strip, i) => (
            <StripView
              key={strip.channels.join(" ")}
              strip={strip}
              model={model}
              units={units}
              marks={strip.quantity === "gaugePressure" ? marks : NO_MARKS}
              height={heights[i]}
              axisWidth={axisWidth}
              plotWidth={plotWidth}
            />
          ))}
          <BandsView
            bands={bands}
            model={model}
            selection={selection}
            dispatch={dispatch}
            axisWidth={axisWidth}
            plotWidth={plotWidth}
            say={sayPlace}
            onExplain={setSaid}
          />
          <CursorLines model={model} axisWidth={axisWidth} plotWidth={plotWidth} />
        </div>
        <TimeRuler model={model} ticks={ticks} sayInstant={sayInstant} axisWidth={axisWidth} plotWidth={plotWidth} />
      </div>
      <p className="trace-said small" role="status">
        {said ??
          (outline.clock.kind === "absolute" && outline.clock.zone === null && !elapsed ? "Times are the logger's own local time." : "")}
      </p>
    </section>
  );
}
