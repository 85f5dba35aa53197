import { useCallback } from "react";
import type { Span } from "../../../shared/findings/span";
import { type Draw, Sketch } from "../../charts/sketch";
import type { TraceModel } from "./trace-model";

type BackdropProps = {
  readonly model: TraceModel;
  /** Every place of the finding that is lit up. */
  readonly lit: readonly Span[];
  readonly chosen: Span | null;
  readonly ticks: (window: Span) => readonly number[];
  readonly axisWidth: number;
  readonly plotWidth: number;
  readonly height: number;
};

/** Behind strips and bands: the grid of time, and the highlighter over the places that are lit up. */
export function Backdrop({ model, lit, chosen, ticks, axisWidth, plotWidth, height }: BackdropProps) {
  const draw = useCallback<Draw>(
    (ink, colours, ratio) => {
      const redraw = () => {
        const window = model.window.get();
        const perSecond = (plotWidth * ratio) / (window.to - window.from);
        const tall = height * ratio;
        const stripe = (span: Span) => {
          const left = (span.from - window.from) * perSecond;
          ink.fillRect(left, 0, Math.max(2 * ratio, (span.to - span.from) * perSecond), tall);
        };
        ink.clearRect(0, 0, plotWidth * ratio, tall);
        ink.fillStyle = colours.highlight;
        ink.globalAlpha = chosen === null ? 1 : 0.45;
        for (const span of lit) if (span.to >= window.from && span.from <= window.to) stripe(span);
        ink.globalAlpha = 1;
        if (chosen !== null) stripe(chosen);
        ink.fillStyle = colours.rule;
        for (const at of ticks(window)) ink.fillRect(Math.round((at - window.from) * perSecond), 0, Math.max(1, ratio / 2), tall);
      };
      redraw();
      return model.window.subscribe(redraw);
    },
    [model, lit, chosen, ticks, plotWidth, height],
  );
  return <Sketch className="backdrop" wide={plotWidth} tall={height} draw={draw} style={{ insetInlineStart: axisWidth }} />;
}
