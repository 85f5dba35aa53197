import { useEffect, useMemo, useState } from "react";
import { formatQuantity, formatReading, scaleOf } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { ChartFrame, type DrawChart } from "../../charts/chart-frame";
import type { ChartMark, ChartSpec } from "../../charts/chart-spec";
import { dashOf, hueOf } from "../../charts/palette";
import { bareHeading, type Strip } from "../../charts/strips";
import { axisRange } from "../../charts/trace-marks";
import { LineSample } from "./line-sample";
import { useObserved } from "./observable";
import { keepStripDrawn } from "./strip-drawing";
import type { TraceModel } from "./trace-model";
import { valueAt } from "./value-at";

const PREDICTED_LINE = { label: TRACE_WORDS.predicted, hue: "other", dash: [7, 3], draw: "line", width: 1.6 } as const;
/** Height of the line over a strip, px. */
export const STRIP_HEAD = 22;

type StripProps = {
  readonly strip: Strip;
  readonly model: TraceModel;
  readonly units: UnitChoice;
  readonly marks: readonly ChartMark[];
  readonly height: number;
  readonly plotWidth: number;
  readonly axisWidth: number;
  readonly isPredicted: boolean;
};

/** One quantity against time, with its own axis; the head names the lines and reads them at the cursor. */
export function StripView({ strip, model, units, marks, height, plotWidth, axisWidth, isPredicted }: StripProps) {
  const scale = scaleOf(strip.shown, units);
  const channels = useMemo(() => strip.channels.map((index) => model.channels[index]), [strip, model]);
  const spec = useMemo<ChartSpec>(() => {
    const { toShown } = scaleOf(strip.shown, units);
    const range = axisRange(toShown(strip.low), toShown(strip.high), marks);
    const lines = channels.map(({ trace }, nth) => ({
      label: trace.heading,
      hue: hueOf(trace.quantity),
      dash: dashOf(nth),
      draw: trace.held ? ("steps" as const) : ("line" as const),
    }));
    const shown = isPredicted ? [...lines, PREDICTED_LINE] : lines;
    return { lines: shown, x: null, y: { title: "", ...range }, marks, axisWidth };
  }, [strip, units, marks, channels, axisWidth, isPredicted]);

  // A picture is drawn on only with the lines it was made for: it may be about to be made anew.
  const [draw, setDraw] = useState<{ readonly now: DrawChart; readonly of: ChartSpec } | null>(null);
  useEffect(() => {
    if (draw === null || draw.of !== spec) return;
    const { toShown } = scaleOf(strip.shown, units);
    return keepStripDrawn({ draw: draw.now, model, strip, channels, spec, toShown, plotWidth, isPredicted });
  }, [draw, model, strip, channels, units, plotWidth, spec, isPredicted]);

  const beyond = marks.filter((mark) => mark.kind === "line" && mark.label !== "" && (mark.at > spec.y.high || mark.at < spec.y.low));
  return (
    <div className="strip">
      <div className="strip-head small">
        <b>
          {strip.title}
          {scale.symbol === "" ? "" : `, ${scale.symbol}`}
        </b>
        {strip.channels.map((index, nth) => (
          <span key={index} className="strip-channel">
            <LineSample hue={hueOf(strip.quantity)} dash={dashOf(nth)} />{" "}
            {saysMore(model.channels[index].trace.heading, strip.title) ? model.channels[index].trace.heading : null}
            <Reading model={model} index={index} strip={strip} units={units} plotWidth={plotWidth} />
          </span>
        ))}
        {isPredicted && (
          <span className="strip-channel">
            <LineSample hue={PREDICTED_LINE.hue} dash={PREDICTED_LINE.dash} /> {TRACE_WORDS.predicted}
          </span>
        )}
        {beyond.map((mark) => (
          <span key={mark.label} className="soft">
            {TRACE_WORDS.outOfPicture(mark.label)}
          </span>
        ))}
      </div>
      <ChartFrame
        spec={spec}
        height={height}
        data={null}
        label={TRACE_WORDS.strip(
          strip.title,
          channels.map(({ trace }) => trace.heading),
          formatQuantity(strip.low, strip.shown, units),
          formatQuantity(strip.high, strip.shown, units),
        )}
        onReady={(now) => setDraw({ now, of: spec })}
      />
    </div>
  );
}

/** Whether a heading says more than the strip's title and a unit in brackets. */
const saysMore = (heading: string, title: string): boolean => bareHeading(heading).toLowerCase() !== title.toLowerCase();

type ReadingProps = Pick<StripProps, "strip" | "model" | "units" | "plotWidth"> & { readonly index: number };

function Reading({ model, index, strip, units, plotWidth }: ReadingProps) {
  const cursor = useObserved(model.cursor);
  const detail = useObserved(model.detail);
  const window = model.window.get();
  if (cursor === null) return null;
  const read = valueAt(model.channels[index], detail?.channels[index] ?? null, cursor, (window.to - window.from) / Math.max(50, plotWidth));
  return (
    <output className="strip-reading">
      {read === null ? TRACE_WORDS.noValue : formatReading(read.low, read.high, model.channels[index].trace.step, strip.shown, units)}
    </output>
  );
}
