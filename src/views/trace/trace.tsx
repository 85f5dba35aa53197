import { useEffect, useRef, useState } from "react";
import { formatQuantity } from "../../../shared/units/format-quantity";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import type { Band, BandPlace } from "../../charts/bands";
import type { ReadRecord } from "../../state/visit-state";
import { useMedia } from "../use-media";
import { useWidth } from "../use-width";
import type { PageProps } from "../view-props";
import { selected } from "./bands-view";
import { GoToTime } from "./go-to-time";
import { Measure } from "./measure";
import { Overview } from "./overview";
import { predictedChannel } from "./predicted-channel";
import { TimeRuler } from "./time-ruler";
import { bandsShown, LOW, layoutOf, SIDE_BY_SIDE } from "./trace-layout";
import { finestInterval, useIsClosest, useTraceModel, useViewHeight } from "./trace-model";
import { TraceStage } from "./trace-stage";
import { StripChoice, TraceTools } from "./trace-tools";
import { around } from "./trace-window";
import { usePinnedHeight } from "./use-pinned-height";
import { usePlaceSteps } from "./use-place-steps";
import { useTraceView } from "./use-trace-view";
import { useTraceWords } from "./use-trace-words";
import "./trace.css";

export type TraceProps = PageProps & { readonly read: ReadRecord };

/** Every channel against time, each quantity on its own strip, with the bands under them and the whole record above. */
export function Trace({ read, state, preferences, dispatch, commands }: TraceProps) {
  const { units } = preferences;
  const { outline } = read;
  const { selection, focus } = state;
  const model = useTraceModel(read, commands.detail);
  const view = useTraceView(read, state, units);
  const [width, widthOf] = useWidth();
  const [isLarge, setLarge] = useState(false);
  const [measure, setMeasure] = useState(false);
  const [chosen, setChosen] = useState<string | null>(null);
  const [stripIndex, setStrip] = useState(0);
  const layout = layoutOf({ isBeside: useMedia(SIDE_BY_SIDE), isLarge }, width, useViewHeight());
  const words = useTraceWords(outline, model, preferences, layout.plotWidth);
  const bands = bandsShown(view.bands, selection, layout);
  const strips =
    layout.kind === "pinned" ? [view.strips[stripIndex] ?? view.strips[0]].filter((strip) => strip !== undefined) : view.strips;

  const isLow = useMedia(LOW);
  /** Neither beside the story nor pinned above it, so that the reader may have scrolled past it; a panel that is open keeps its place. */
  const mayBeAway = useRef(false);
  mayBeAway.current = (layout.kind === "large" || (layout.kind === "pinned" && isLow)) && state.sheet === null;
  const section = usePinnedHeight(layout.kind === "pinned" && !isLow);
  const { predicted } = state;
  useEffect(() => model.predicted.set(predictedChannel(predicted, TRACE_WORDS.predicted)), [predicted, model]);
  useEffect(() => {
    if (focus === null) return;
    model.moveTo(around(focus.span, model.extent));
    // Beside the story the record scrolls by itself: what is shown must be in sight.
    section.current?.closest(".record-side")?.scrollTo({ top: 0 });
    if (mayBeAway.current) section.current?.scrollIntoView({ block: "start" });
  }, [focus, model, section]);

  function showPlace(band: Band, place: BandPlace): void {
    model.cursor.set(place.from);
    model.moveTo(around(place, model.extent));
    dispatch({ do: "select", selection: selected(band, place) });
    setChosen(words.sayPlace(band, place));
  }

  const steps = usePlaceSteps(model, view.bands, showPlace);
  const goTo = useRef<HTMLInputElement>(null);
  function press(key: string): boolean {
    if (key === "n" || key === "N") steps.step(1);
    else if (key === "p" || key === "P") steps.step(-1);
    else if ((key === "g" || key === "G") && goTo.current !== null) goTo.current.focus();
    else {
      // Measuring begins with its key; the point itself is set by the stage.
      if (key === "m" || key === "M") setMeasure(true);
      return false;
    }
    return true;
  }

  const isClosest = useIsClosest(model);
  const isLoggersTime = outline.clock.kind === "absolute" && outline.clock.zone === null && !words.elapsed;
  return (
    <section ref={section} className="trace" data-layout={layout.kind} data-roomy={layout.isRoomy} aria-label={TRACE_WORDS.name}>
      <TraceTools
        model={model}
        bands={view.bands}
        strips={view.strips}
        stripIndex={stripIndex}
        layout={layout}
        choiceBelow={isLow}
        measure={measure}
        onMeasure={setMeasure}
        steps={steps}
        onLarge={setLarge}
        onStrip={setStrip}
      />
      {measure && (
        <Measure
          model={model}
          strips={view.strips}
          bands={view.bands}
          noCycles={view.noCycles}
          units={units}
          plotWidth={layout.plotWidth}
        />
      )}
      <div ref={widthOf}>
        <Overview model={model} channel={strips[0]?.channels[0] ?? 0} layout={layout} />
        <TraceStage
          model={model}
          view={view}
          strips={strips}
          bands={bands}
          layout={layout}
          words={words}
          units={units}
          selection={selection}
          isPredicted={predicted !== null}
          measure={measure}
          dispatch={dispatch}
          onKey={press}
          onChoose={setChosen}
        />
        <TimeRuler model={model} words={words} layout={layout} />
      </div>
      <div className="trace-foot small">
        <p className="trace-said" role="status">
          {isClosest
            ? TRACE_WORDS.closest(formatQuantity(finestInterval(model.channels), "time", units, 2))
            : (chosen ?? (isLoggersTime && layout.kind !== "pinned" ? TRACE_WORDS.loggersTime : ""))}
        </p>
        {layout.kind === "pinned" && isLow && <StripChoice strips={view.strips} stripIndex={stripIndex} onStrip={setStrip} />}
        {layout.kind !== "pinned" && (
          <GoToTime model={model} clock={outline.clock} elapsed={words.elapsed} locale={units.locale} field={goTo} />
        )}
      </div>
    </section>
  );
}
