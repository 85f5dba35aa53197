import type { PlotFrame } from "./chart-marks";
import type { Point } from "./trace-series";

/**
 * Draws a line given as columns (two points each: least and greatest value, in either order) as upright strokes, one a column, each long
 * enough to meet the one before. Upright rectangles cost a software canvas a fraction of a stroked zigzag.
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
  const period = look.dash.reduce((sum, length) => sum + length, 0) * frame.scale;
  const through = (look.dash[0] ?? 0) * frame.scale;
  ink.fillStyle = look.colour;
  let before: { readonly left: number; readonly top: number; readonly bottom: number } | null = null;
  for (let i = 0; i + 1 < x.length; i += 2) {
    const [a, b] = [values[i], values[i + 1]];
    if (a === null) before = null;
    if (a === null || a === undefined || b === null || b === undefined) continue;
    const left = Math.round(frame.toX((x[i] + x[i + 1]) / 2));
    const [ya, yb] = [frame.toY(a), frame.toY(b)];
    const own = { left, top: Math.min(ya, yb), bottom: Math.max(ya, yb) };
    let { top, bottom } = own;
    if (before !== null && left - before.left <= 2) {
      if (before.bottom < top) top = before.bottom;
      if (before.top > bottom) bottom = before.top;
    } else if (before !== null) joinFar(ink, before, own, thick);
    before = own;
    if (period > 0 && left % period >= through) continue;
    ink.fillRect(left, top - thick / 2, Math.max(1, thick), bottom - top + thick);
  }
}

/** Columns apart, with no sample between them: a thin line from one to the other. */
function joinFar(
  ink: CanvasRenderingContext2D,
  from: { readonly left: number; readonly bottom: number; readonly top: number },
  to: { readonly left: number; readonly bottom: number; readonly top: number },
  thick: number,
): void {
  ink.strokeStyle = ink.fillStyle;
  ink.lineWidth = thick;
  ink.beginPath();
  ink.moveTo(from.left, (from.top + from.bottom) / 2);
  ink.lineTo(to.left, (to.top + to.bottom) / 2);
  ink.stroke();
}
