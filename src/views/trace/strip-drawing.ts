import type { Span } from "../../../shared/findings/span";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import type { DrawChart } from "../../charts/chart-frame";
import type { ChartSpec } from "../../charts/chart-spec";
import { pyramidRange } from "../../charts/pyramid";
import type { Strip } from "../../charts/strips";
import { axisRange, rangeInSight } from "../../charts/trace-marks";
import { columnSeries, type DrawnChannel, sampleSeries, type TraceSeries } from "../../charts/trace-series";
import type { Detail } from "../../worker/messages";
import { emptyChannel, samplesWithin } from "./predicted-channel";
import { covers, type TraceModel } from "./trace-model";

type Drawn = {
  readonly draw: DrawChart;
  readonly model: TraceModel;
  readonly strip: Strip;
  readonly channels: readonly DrawnChannel[];
  readonly spec: ChartSpec;
  readonly toShown: (si: number) => number;
  readonly plotWidth: number;
  /** The last line of the picture is a prediction. */
  readonly isPredicted: boolean;
};

/** Stand for a prediction that is not there yet. */
const NO_SAMPLES = { times: new Float64Array(0), values: new Float32Array(0) };
const NO_CHANNEL: DrawnChannel = emptyChannel(TRACE_WORDS.predicted);

/** Draws a strip now and whenever the window moves, samples arrive or a prediction changes. @returns how to stop */
export function keepStripDrawn(drawn: Drawn): () => void {
  const { draw, model, strip, channels, spec, toShown, plotWidth } = drawn;
  let samples: { readonly of: Detail; readonly series: TraceSeries } | null = null;
  const seriesOf = (window: Span): { readonly series: TraceSeries; readonly columns: boolean } => {
    const detail = model.detail.get();
    if (!covers(detail, window)) {
      const [lines] = withPredicted(drawn, channels, [], window);
      return { series: columnSeries(lines, window, Math.max(50, plotWidth), toShown), columns: true };
    }
    if (samples?.of !== detail) {
      const own = strip.channels.map((index) => detail.channels[index]);
      samples = { of: detail, series: sampleSeries(...withPredicted(drawn, channels, own, detail), toShown) };
    }
    return { series: samples.series, columns: false };
  };
  const redraw = () => {
    const window = model.window.get();
    const { series, columns } = seriesOf(window);
    const seen = model.fitHeight.get() ? rangeInSight(series, window) : null;
    const zero = seen !== null && strip.low === 0 ? Math.min(0, seen.low) : seen?.low;
    const height = seen === null || zero === undefined ? wholeRange(drawn) : axisRange(zero, seen.high, spec.marks);
    draw({ x: series.times, ys: series.values, columns }, window, height);
  };
  const predictAnew = () => {
    samples = null;
    redraw();
  };
  redraw();
  const stops = [
    model.predicted.subscribe(predictAnew),
    model.window.subscribe(redraw),
    model.detail.subscribe(redraw),
    model.fitHeight.subscribe(redraw),
  ];
  return () => stops.forEach((stop) => void stop());
}

const predictedOf = ({ isPredicted, model }: Drawn) => (isPredicted ? model.predicted.get() : null);

/** The channels drawn and their samples, the prediction last where there is one. */
function withPredicted(
  drawn: Drawn,
  channels: readonly DrawnChannel[],
  own: Detail["channels"],
  { from, to }: { readonly from: number; readonly to: number },
): readonly [readonly DrawnChannel[], Detail["channels"]] {
  if (!drawn.isPredicted) return [channels, own];
  const predicted = predictedOf(drawn);
  if (predicted === null) {
    return [
      [...channels, NO_CHANNEL],
      [...own, NO_SAMPLES],
    ];
  }
  return [
    [...channels, predicted.drawn],
    [...own, samplesWithin(predicted.samples, from, to)],
  ];
}

/** The height that holds the whole record, and the prediction. */
function wholeRange(drawn: Drawn): { readonly low: number; readonly high: number } {
  const { strip, spec, toShown } = drawn;
  const predicted = predictedOf(drawn);
  const ends = predicted === null ? null : pyramidRange(predicted.drawn.trace.pyramid);
  if (ends === null) return spec.y;
  return axisRange(toShown(Math.min(strip.low, ends.low)), toShown(Math.max(strip.high, ends.high)), spec.marks);
}
