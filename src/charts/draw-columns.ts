import type { PlotFrame } from "./chart-marks";
import type { Point } from "./trace-series";

/** Inside a stretch of columns the ink is thinner: lines drawn over it stay readable, and its outline stands out. */
const INSIDE = 0.42;
/** An inside lower than this many line widths is drawn through. */
const LEAST_INSIDE = 3;

type Column = {
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
  /** Top and bottom with what it takes to meet the column before. */
  readonly reachTop: number;
  readonly reachBottom: number;
  /** Follows the one before without a break. */
  readonly joins: boolean;
};

/**
 * Draws a line given as columns (two points each: least and greatest value, in either order) as upright strokes, one a column, each long
 * enough to meet the one before. What both neighbours cover too is drawn in thinner ink: whatever stands out of them, every spike, stays
 * at full strength. Upright rectangles cost a software canvas a fraction of a stroked zigzag.
 * @param x times [n]     @param values [n], null a break, undefined nothing here
 */
export function drawColumns(
  ink: CanvasRenderingContext2D,
  frame: PlotFrame,
  x: ArrayLike<number>,
  values: readonly Point[],
  look: { readonly colour: string; readonly width: number; readonly dash: readonly number[] },
): void {
  const thick = Math.max(1, look.width * frame.scale);
  const columns = columnsOf(ink, frame, x, values, thick, look.colour);
  const period = look.dash.reduce((sum, length) => sum + length, 0) * frame.scale;
  const through = (look.dash[0] ?? 0) * frame.scale;
  const wide = Math.max(1, thick);
  const insides: number[] = [];
  ink.fillStyle = look.colour;
  columns.forEach((column, i) => {
    const { left, reachTop, reachBottom } = column;
    if (period > 0 && left % period >= through) return;
    const inside = period > 0 ? null : insideOf(columns, i, thick);
    if (inside === null) ink.fillRect(left, reachTop - thick / 2, wide, reachBottom - reachTop + thick);
    else {
      const [from, to] = inside;
      ink.fillRect(left, reachTop - thick / 2, wide, from - reachTop + thick / 2);
      ink.fillRect(left, to, wide, reachBottom - to + thick / 2);
      insides.push(left, from, to);
    }
  });
  ink.globalAlpha = INSIDE;
  // A stroke wider than its column would lie over its neighbour and darken it.
  for (let k = 0; k < insides.length; k += 3) {
    const next = k + 3 < insides.length ? insides[k + 3] - insides[k] : wide;
    ink.fillRect(insides[k], insides[k + 1], next > 0 ? Math.min(wide, next) : wide, insides[k + 2] - insides[k + 1]);
  }
  ink.globalAlpha = 1;
}

/** From where to where a column and both its neighbours are covered; null where that is nothing to speak of. */
function insideOf(columns: readonly Column[], i: number, thick: number): readonly [number, number] | null {
  const [before, own, after] = [columns[i - 1], columns[i], columns[i + 1]];
  if (before === undefined || after === undefined || !own.joins || !after.joins) return null;
  const from = Math.max(before.top, own.top, after.top) + thick / 2;
  const to = Math.min(before.bottom, own.bottom, after.bottom) - thick / 2;
  return to - from > LEAST_INSIDE * thick ? [from, to] : null;
}

function columnsOf(
  ink: CanvasRenderingContext2D,
  frame: PlotFrame,
  x: ArrayLike<number>,
  values: readonly Point[],
  thick: number,
  colour: string,
): readonly Column[] {
  const columns: Column[] = [];
  let before: Column | null = null;
  ink.fillStyle = colour;
  for (let i = 0; i + 1 < x.length; i += 2) {
    const [a, b] = [values[i], values[i + 1]];
    if (a === null) before = null;
    if (a === null || a === undefined || b === null || b === undefined) continue;
    const left = Math.round(frame.toX((x[i] + x[i + 1]) / 2));
    const [ya, yb] = [frame.toY(a), frame.toY(b)];
    const [top, bottom] = ya < yb ? [ya, yb] : [yb, ya];
    const joins: boolean = before !== null && left - before.left <= 2;
    if (before !== null && !joins) joinFar(ink, before, { left, top, bottom }, thick);
    const column: Column = {
      left,
      top,
      bottom,
      reachTop: joins && before !== null ? Math.min(top, before.bottom) : top,
      reachBottom: joins && before !== null ? Math.max(bottom, before.top) : bottom,
      joins,
    };
    columns.push(column);
    before = column;
  }
  return columns;
}

type Ends = Pick<Column, "left" | "top" | "bottom">;

/** Columns apart, with no sample between them: a thin line from one to the other. */
function joinFar(ink: CanvasRenderingContext2D, from: Ends, to: Ends, thick: number): void {
  ink.strokeStyle = ink.fillStyle;
  ink.lineWidth = thick;
  ink.beginPath();
  ink.moveTo(from.left, (from.top + from.bottom) / 2);
  ink.lineTo(to.left, (to.top + to.bottom) / 2);
  ink.stroke();
}
