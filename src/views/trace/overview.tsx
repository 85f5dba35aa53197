import { type PointerEvent, useCallback, useRef } from "react";
import type { Span } from "../../../shared/findings/span";
import { hueOf } from "../../charts/palette";
import { pyramidColumns, pyramidRange } from "../../charts/pyramid";
import { type Draw, Sketch } from "../../charts/sketch";
import { useObserved } from "./observable";
import type { TraceLayout } from "./trace-layout";
import type { TraceModel } from "./trace-model";
import { centred, fitted } from "./trace-window";

type OverviewProps = {
  readonly model: TraceModel;
  /** Index of the channel that is drawn small. */
  readonly channel: number;
  readonly layout: TraceLayout;
};

/** The whole record, small, with the window on it: drag the window or its edges, or draw a new one. */
export function Overview({ model, channel, layout }: OverviewProps) {
  const { axisWidth, plotWidth, overviewHeight: height } = layout;
  const window = useObserved(model.window);
  const drag = useRef<{ readonly grip: "from" | "to" | "body" | "new"; readonly at: number; readonly window: Span } | null>(null);

  const draw = useCallback<Draw>(
    (ink, colours) => {
      ink.fillStyle = colours[hueOf(model.channels[channel].trace.quantity)];
      drawSmall(ink, model, channel);
      return undefined;
    },
    [model, channel],
  );

  const toX = (t: number) => (t / model.duration) * plotWidth;
  const toT = (event: PointerEvent) => ((event.clientX - event.currentTarget.getBoundingClientRect().left) / plotWidth) * model.duration;

  function begin(event: PointerEvent): void {
    event.currentTarget.setPointerCapture(event.pointerId);
    const at = toT(event);
    const reach = (9 / plotWidth) * model.duration;
    const whole = window.to - window.from > 0.98 * model.duration;
    const grip =
      Math.abs(at - window.from) < reach && !whole
        ? "from"
        : Math.abs(at - window.to) < reach && !whole
          ? "to"
          : at > window.from && at < window.to && !whole
            ? "body"
            : "new";
    drag.current = { grip, at, window };
  }

  function go(event: PointerEvent): void {
    if (drag.current === null) return;
    const { grip, at, window: began } = drag.current;
    const now = toT(event);
    const pulled = {
      from: { from: now, to: began.to },
      to: { from: began.from, to: now },
      body: { from: began.from + now - at, to: began.to + now - at },
      new: { from: at, to: now },
    }[grip];
    const [from, to] = pulled.from < pulled.to ? [pulled.from, pulled.to] : [pulled.to, pulled.from];
    if (to - from > (2 / plotWidth) * model.duration) model.window.set(fitted({ from, to } as Span, model.extent));
  }

  function finish(event: PointerEvent): void {
    const began = drag.current;
    drag.current = null;
    if (began !== null && began.grip === "new" && Math.abs(toT(event) - began.at) < (3 / plotWidth) * model.duration) {
      model.moveTo(centred(began.window, began.at, model.extent));
    }
  }

  return (
    // Pointer only: the trace itself does all of this by keyboard.
    <div className="overview" aria-hidden="true" style={{ marginInlineStart: axisWidth, width: plotWidth, height }}>
      <Sketch wide={plotWidth} tall={height} draw={draw} onPointerDown={begin} onPointerMove={go} onPointerUp={finish} />
      <div
        className="overview-window"
        style={{ transform: `translateX(${toX(window.from)}px)`, width: Math.max(3, toX(window.to) - toX(window.from)) }}
      />
    </div>
  );
}

function drawSmall(ink: CanvasRenderingContext2D, model: TraceModel, channel: number): void {
  const { width, height } = ink.canvas;
  const { pyramid } = model.channels[channel].trace;
  const gaps = model.channels[channel].gaps.map(({ from, to }) => [(from / model.duration) * width, (to / model.duration) * width]);
  const range = pyramidRange(pyramid);
  if (range === null) return;
  const { min, max } = pyramidColumns(pyramid, 0, model.duration / width, width);
  const perUnit = (height - 4) / (range.high - range.low || 1);
  for (let x = 0; x < width; x++) {
    if (Number.isNaN(min[x]) || gaps.some(([from, to]) => from <= x && x + 1 <= to)) continue;
    const top = height - 2 - (max[x] - range.low) * perUnit;
    ink.fillRect(x, top, 1, Math.max(1.5, (max[x] - min[x]) * perUnit));
  }
}
