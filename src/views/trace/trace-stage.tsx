import { type KeyboardEvent, useMemo, useState } from "react";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import type { Band } from "../../charts/bands";
import type { ChartMark } from "../../charts/chart-spec";
import type { Strip } from "../../charts/strips";
import type { Dispatch } from "../../state/visit-reducer";
import type { Selection } from "../../state/visit-state";
import { Backdrop } from "./backdrop";
import { BandsView, LANE_HEIGHT } from "./bands-view";
import { CursorLines } from "./cursor-lines";
import { pressKey } from "./press-key";
import { STRIP_HEAD, StripView } from "./strip-view";
import { stripHeight, type TraceLayout } from "./trace-layout";
import type { TraceModel } from "./trace-model";
import { useGestures } from "./use-gestures";
import type { TraceView } from "./use-trace-view";
import type { TraceWords } from "./use-trace-words";

type StageProps = {
  readonly model: TraceModel;
  readonly view: TraceView;
  readonly strips: readonly Strip[];
  readonly bands: readonly Band[];
  readonly layout: TraceLayout;
  readonly words: TraceWords;
  readonly units: UnitChoice;
  readonly selection: Selection;
  /** Whether a prediction is drawn over the recorded pressure. */
  readonly isPredicted: boolean;
  readonly measure: boolean;
  readonly dispatch: Dispatch;
  /** Keys that reach beyond the stage; false where one does nothing there. */
  readonly onKey: (key: string) => boolean;
  readonly onChoose: (text: string | null) => void;
};

const NO_MARKS: readonly ChartMark[] = [];
const BANDS_ABOVE = 6;

/** Strips and bands on one axis of time: what wheel, finger and keys move. */
export function TraceStage(props: StageProps) {
  const { model, view, strips, bands, layout, words, units, selection, isPredicted, measure, dispatch } = props;
  const { axisWidth, plotWidth } = layout;
  const [stage, setStage] = useState<HTMLElement | null>(null);
  useGestures(stage, model, { axisWidth, plotWidth, measure });
  const marks = useMemo(
    () => (layout.kind === "pinned" ? view.marks.map((mark) => ({ ...mark, label: "" })) : view.marks),
    [view.marks, layout.kind],
  );
  const heights = strips.map((strip, i) => stripHeight(strip, i === 0, strips.length === 1, layout));
  const height = heights.reduce((sum, own) => sum + own + STRIP_HEAD, 0) + bands.length * LANE_HEIGHT + BANDS_ABOVE;

  function press(event: KeyboardEvent): void {
    if (event.target !== event.currentTarget || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "?") dispatch({ do: "open-sheet", sheet: "how-shown" });
    else if (!props.onKey(event.key) && !pressKey(event.key, event.shiftKey, model)) return;
    event.preventDefault();
  }

  return (
    <div
      ref={setStage}
      className="stage"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the trace is moved by keys
      tabIndex={0}
      role="application"
      aria-label={TRACE_WORDS.keys}
      onKeyDown={press}
    >
      <Backdrop
        model={model}
        lit={view.lit}
        chosen={selection.span}
        ticks={words.tickTimes}
        axisWidth={axisWidth}
        plotWidth={plotWidth}
        height={height}
      />
      {strips.map((strip, i) => (
        <StripView
          key={strip.channels.join(" ")}
          strip={strip}
          model={model}
          units={units}
          marks={strip.quantity === "gaugePressure" ? marks : NO_MARKS}
          height={heights[i]}
          isPredicted={isPredicted && strip.quantity === "gaugePressure"}
          axisWidth={axisWidth}
          plotWidth={plotWidth}
        />
      ))}
      <BandsView
        bands={bands}
        model={model}
        selection={selection}
        dispatch={dispatch}
        layout={layout}
        say={words.sayPlace}
        onChoose={props.onChoose}
      />
      <CursorLines model={model} axisWidth={axisWidth} plotWidth={plotWidth} />
    </div>
  );
}
