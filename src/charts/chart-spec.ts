import type { ColourToken } from "./palette";
import type { Point } from "./trace-series";

export type ChartLine = {
  readonly label: string;
  readonly hue: ColourToken;
  readonly dash: readonly number[];
  readonly draw: "line" | "steps" | "points" | "bars";
  readonly width?: number;
};

/** A line across the picture, or an area between two values, with its name written beside it. */
export type ChartMark =
  | { readonly kind: "line"; readonly axis: "x" | "y"; readonly at: number; readonly label: string; readonly dash: readonly number[] }
  | { readonly kind: "area"; readonly axis: "x" | "y"; readonly from: number; readonly to: number; readonly label: string };

export type ChartAxis = {
  readonly title: string;
  readonly low: number;
  readonly high: number;
  /** How a tick is written; numbers as they are where nothing is said. */
  readonly write?: (value: number) => string;
  readonly logarithmic?: boolean;
  /** Where the ticks stand; round numbers where nothing is said. */
  readonly ticks?: readonly number[];
};

/** What a picture shows, without its data. */
export type ChartSpec = {
  readonly lines: readonly ChartLine[];
  /** Null: a strip of the trace, whose time axis stands elsewhere. */
  readonly x: ChartAxis | null;
  readonly y: ChartAxis;
  readonly marks: readonly ChartMark[];
  /** Pairs of lines (least, greatest) with the space between them shaded: an interval. */
  /** Room left of the plot, px; the usual where nothing is said. */
  readonly axisWidth?: number;
  readonly shaded?: readonly (readonly [number, number])[];
};

/** x rising, shape [n]; one list of n a line. */
export type ChartData = {
  readonly x: ArrayLike<number>;
  readonly ys: readonly (readonly Point[])[];
  /** Two points a pixel column, least and greatest value: drawn as upright strokes. */
  readonly columns?: boolean;
};

/** What changes from one drawing to the next: the height in sight, and how the data come. */
export type InSight = { low: number; high: number; columns: boolean };

/** Room left of the plot where nothing else is said, px. */
export const AXIS_WIDTH = 72;
export const PLOT_RIGHT = 12;
