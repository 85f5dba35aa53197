import type uPlot from "uplot";
import { formatNumber } from "../../shared/units/format-quantity";
import { drawAreas, drawMarks, inPlot, type PlotFrame } from "./chart-marks";
import { AXIS_WIDTH, type ChartAxis, type ChartLine, type ChartSpec, type InSight, PLOT_RIGHT } from "./chart-spec";
import { drawColumns } from "./draw-columns";
import type { Colours } from "./palette";
import type { Point } from "./trace-series";

/** The path builders of the drawing library, given by the one file that loads it. */
export type PathBuilders = typeof uPlot.paths;

export type Looks = { readonly colours: Colours; readonly font: string; readonly heavy: boolean; readonly locale: string | null };

/** Our picture in the drawing library's words. Cursor, legend and zoom stay off: the views have their own. */
export function chartOptions(
  spec: ChartSpec,
  size: { width: number; height: number },
  looks: Looks,
  paths: PathBuilders,
  inSight: InSight,
): uPlot.Options {
  const { colours, font } = looks;
  return {
    ...size,
    padding: [spec.x === null ? 4 : 8, spec.x === null ? PLOT_RIGHT : LAST_LABEL, spec.x === null ? 4 : 0, 0],
    legend: { show: false },
    cursor: { show: false },
    scales: {
      x: spec.x === null ? { time: false, auto: false } : scaleOf(spec.x),
      // Read anew whenever the window moves: the height may follow it.
      y: { ...scaleOf(spec.y), range: () => [inSight.low, inSight.high] },
    },
    axes: [
      spec.x === null ? { show: false } : { ...axis(spec.x, looks), size: 36, space: 70, labelSize: 18 },
      { ...axis(spec.y, looks), ...yAxisRoom(spec), space: 24 },
    ],
    series: [{}, ...spec.lines.map((line) => series(line, looks, paths, inSight))],
    bands: (spec.shaded ?? []).map(([low, high]) => ({ series: [high + 1, low + 1], fill: `${shade(spec.lines[low], colours)}` })),
    hooks: {
      drawClear: [(plot) => drawAreas(plot.ctx, frameOf(plot), spec.marks, colours)],
      draw: [
        (plot) => drawAsColumns(plot, spec, looks, inSight),
        (plot) => drawMarks(plot.ctx, frameOf(plot), spec.marks, colours, scaledFont(font, pixelRatio(plot))),
      ],
    },
  };
}

function scaleOf({ low, high, logarithmic }: ChartAxis): uPlot.Scale {
  return { time: false, auto: false, range: () => [low, high], ...(logarithmic ? { distr: 3 as const } : {}) };
}

/** Half a label of the horizontal axis, that the last one is not cut, px. */
const LAST_LABEL = 34;

const TITLE = 18;
const yAxisRoom = ({ x, y, axisWidth = AXIS_WIDTH }: ChartSpec) =>
  x === null || y.title === "" ? { size: axisWidth } : { size: axisWidth - TITLE, labelSize: TITLE };

/** As many decimals as it takes to write a step exactly: 0.25 needs two. */
function decimalsOf(step: number): number {
  for (let decimals = 0; decimals < 9; decimals++) {
    const scaled = step * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6 * scaled) return decimals;
  }
  return 9;
}

function axis({ title, write, ticks, low, high }: ChartAxis, { colours, font, locale }: Looks): uPlot.Axis {
  return {
    ...(title === "" ? {} : { label: title }),
    labelFont: font,
    font,
    stroke: colours.ink,
    grid: { stroke: colours.rule, width: 0.5 },
    ticks: { stroke: colours.edge, width: 1, size: 4 },
    border: { show: true, stroke: colours.edge, width: 1 },
    gap: 3,
    ...(ticks === undefined
      ? {}
      : { splits: () => ticks.filter((at) => at >= low && at <= high), filter: (_plot: uPlot, all: number[]) => all }),
    values: (_plot: uPlot, values: number[], _axis: number, _space: number, step: number) =>
      values.map((value) => (value === null ? "" : write === undefined ? formatNumber(value, decimalsOf(step), locale) : write(value))),
  };
}

function series(line: ChartLine, { colours, heavy }: Looks, paths: PathBuilders, inSight: InSight): uPlot.Series {
  const stroke = colours[line.hue];
  const width = lineWidth(line, heavy);
  const common: uPlot.Series = { label: line.label, stroke, width, dash: [...line.dash], spanGaps: false, points: { show: false } };
  switch (line.draw) {
    case "line":
      return { ...common, paths: unlessColumns(paths.linear!(), inSight) };
    case "steps":
      return { ...common, paths: unlessColumns(paths.stepped!({ align: 1 }), inSight) };
    case "bars":
      return { ...common, fill: `color-mix(in srgb, ${stroke} 35%, transparent)`, paths: paths.bars!({ size: [0.9, 80], align: 0 }) };
    case "points":
      return { ...common, paths: () => null, points: { show: true, size: heavy ? 6 : 4, width: 1, stroke, fill: colours.paper } };
  }
}

/** Columns are drawn by hand, after the axes; the library then draws no line of its own. */
function unlessColumns(build: uPlot.Series.PathBuilder, inSight: InSight): uPlot.Series.PathBuilder {
  return (plot, series, from, to) => (inSight.columns ? null : build(plot, series, from, to));
}

function drawAsColumns(plot: uPlot, spec: ChartSpec, { colours, heavy }: Looks, inSight: InSight): void {
  if (!inSight.columns) return;
  const frame = frameOf(plot);
  const [x, ...lists] = plot.data;
  inPlot(plot.ctx, frame, () => {
    spec.lines.forEach((line, k) => {
      const width = lineWidth(line, heavy);
      drawColumns(plot.ctx, frame, x, lists[k] as readonly Point[], { colour: colours[line.hue], width, dash: line.dash });
    });
  });
}

const lineWidth = (line: ChartLine, heavy: boolean): number => (line.width ?? 1.25) * (heavy ? 1.8 : 1);

const shade = (line: ChartLine, colours: Colours) => `color-mix(in srgb, ${colours[line.hue]} 18%, transparent)`;

const pixelRatio = (plot: uPlot): number => plot.ctx.canvas.width / Math.max(1, plot.width);
const scaledFont = (font: string, ratio: number) => font.replace(/([\d.]+)px/, (_, size: string) => `${Number(size) * ratio}px`);

function frameOf(plot: uPlot): PlotFrame {
  const { left, top, width, height } = plot.bbox;
  return {
    left,
    top,
    width,
    height,
    scale: pixelRatio(plot),
    toX: (value) => plot.valToPos(value, "x", true),
    toY: (value) => plot.valToPos(value, "y", true),
  };
}
