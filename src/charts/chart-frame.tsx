import { useEffect, useRef } from "react";
import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import type { Span } from "../../shared/findings/span";
import { chartOptions } from "./chart-options";
import type { ChartData, ChartSpec } from "./chart-spec";
import { useLight } from "./use-light";

/** Draws new data and, on a strip of the trace, another window of time and another height, at once. */
export type DrawChart = (data: ChartData, window: Span | null, height?: { readonly low: number; readonly high: number }) => void;

type ChartFrameProps = {
  readonly spec: ChartSpec;
  readonly height: number;
  /** What the picture shows, for readers who listen. */
  readonly label: string;
  readonly data: ChartData | null;
  /** Given once the picture stands, and again each time it is made anew. */
  readonly onReady?: (draw: DrawChart) => void;
};

/** The one place that speaks to the drawing library. The picture follows the width of its place and the light of the page. */
export function ChartFrame({ spec, height, label, data, onReady }: ChartFrameProps) {
  const place = useRef<HTMLDivElement>(null);
  const latest = useRef({ data, onReady });
  latest.current = { data, onReady };
  const drawing = useRef<DrawChart | null>(null);
  const { name: light, colours } = useLight();

  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const style = getComputedStyle(element);
    const looks = {
      colours,
      font: `${style.fontSize} ${style.fontFamily}`,
      heavy: light === "sunlight",
      locale: navigator.language || null,
    };
    const inSight = { low: spec.y.low, high: spec.y.high, columns: false };
    const options = chartOptions(spec, { width: Math.max(120, element.clientWidth), height }, looks, uPlot.paths, inSight);
    const plot = new uPlot(options, aligned(latest.current.data, spec), element);
    const draw: DrawChart = (next, window, range = spec.y) =>
      plot.batch(() => {
        inSight.columns = next.columns === true;
        plot.setData(aligned(next, spec), window === null);
        if (window === null) return;
        plot.setScale("x", { min: window.from, max: window.to });
        if (range.low !== inSight.low || range.high !== inSight.high) {
          Object.assign(inSight, { low: range.low, high: range.high });
          plot.setScale("y", { min: range.low, max: range.high });
        }
      });
    drawing.current = draw;
    latest.current.onReady?.(draw);
    const watch = new ResizeObserver(() => {
      if (element.clientWidth !== plot.width && element.clientWidth > 0) plot.setSize({ width: element.clientWidth, height });
    });
    watch.observe(element);
    return () => {
      watch.disconnect();
      drawing.current = null;
      plot.destroy();
    };
  }, [spec, height, light, colours]);

  useEffect(() => {
    if (data !== null) drawing.current?.(data, null);
  }, [data]);

  return <div ref={place} className="chart small" role="img" aria-label={label} style={{ height }} />;
}

function aligned(data: ChartData | null, spec: ChartSpec): uPlot.AlignedData {
  // The library reads any array of numbers; its types ask for a mutable one.
  const lists: unknown = data === null ? [[], ...spec.lines.map(() => [])] : [data.x, ...data.ys];
  return lists as uPlot.AlignedData;
}
