import type { ChartMark } from "./chart-spec";
import type { Colours } from "./palette";

/** Where the plot lies on its canvas and how values become pixels of it. */
export type PlotFrame = {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  toX(value: number): number;
  toY(value: number): number;
};

type Ink = CanvasRenderingContext2D;

/** Areas go behind the lines. */
export function drawAreas(ink: Ink, frame: PlotFrame, marks: readonly ChartMark[], colours: Colours): void {
  inPlot(ink, frame, () => {
    ink.fillStyle = colours.edge;
    ink.globalAlpha = 0.16;
    for (const mark of marks) {
      if (mark.kind !== "area") continue;
      if (mark.axis === "y") ink.fillRect(frame.left, frame.toY(mark.to), frame.width, frame.toY(mark.from) - frame.toY(mark.to));
      else ink.fillRect(frame.toX(mark.from), frame.top, frame.toX(mark.to) - frame.toX(mark.from), frame.height);
    }
  });
}

/** Named lines go over the data, their names at the right end, moved apart where they would cover one another. */
export function drawMarks(ink: Ink, frame: PlotFrame, marks: readonly ChartMark[], colours: Colours, font: string): void {
  inPlot(ink, frame, () => {
    ink.strokeStyle = colours.limit;
    ink.lineWidth = frame.scale;
    for (const mark of marks) {
      if (mark.kind !== "line") continue;
      ink.setLineDash(mark.dash.map((length) => length * frame.scale));
      ink.beginPath();
      if (mark.axis === "y") {
        ink.moveTo(frame.left, frame.toY(mark.at));
        ink.lineTo(frame.left + frame.width, frame.toY(mark.at));
      } else {
        ink.moveTo(frame.toX(mark.at), frame.top);
        ink.lineTo(frame.toX(mark.at), frame.top + frame.height);
      }
      ink.stroke();
    }
    ink.setLineDash([]);
    ink.font = font;
    drawNames(ink, frame, marks, colours);
  });
}

function drawNames(ink: Ink, frame: PlotFrame, marks: readonly ChartMark[], colours: Colours): void {
  const line = 13 * frame.scale;
  const placed: number[] = [];
  const inside = (mark: ChartMark) => frame.toY(middle(mark)) >= frame.top && frame.toY(middle(mark)) <= frame.top + frame.height;
  const across = marks.filter((mark) => mark.axis === "y" && mark.label !== "" && inside(mark));
  for (const mark of across.sort((a, b) => middle(b) - middle(a))) {
    const wanted = frame.toY(middle(mark)) - (mark.kind === "line" ? line / 2 : 0);
    const lowest = frame.top + line / 2 + 1;
    const after = placed.length === 0 ? -Infinity : placed[placed.length - 1] + line;
    const y = Math.min(frame.top + frame.height - line / 2, Math.max(lowest, wanted, after));
    placed.push(y);
    write(ink, mark.label, frame.left + frame.width - 4 * frame.scale, y, "right", colours, frame.scale);
  }
  marks.forEach((mark, k) => {
    if (mark.axis === "x" && mark.label !== "") {
      const [x, off] = [frame.toX(middle(mark)), 4 * frame.scale];
      // Right of its line, or left of it where it would run out of the plot.
      const fits = x + off + ink.measureText(mark.label).width <= frame.left + frame.width;
      write(ink, mark.label, fits ? x + off : x - off, frame.top + line * (0.8 + (k % 3)), fits ? "left" : "right", colours, frame.scale);
    }
  });
}

const middle = (mark: ChartMark): number => (mark.kind === "line" ? mark.at : (mark.from + mark.to) / 2);

/** Text on a slip of paper, so that a line behind does not strike it through. */
function write(ink: Ink, text: string, x: number, y: number, align: "left" | "right", colours: Colours, scale: number): void {
  const width = ink.measureText(text).width;
  const left = align === "right" ? x - width : x;
  ink.globalAlpha = 0.95;
  ink.fillStyle = colours.paper;
  ink.fillRect(left - 3 * scale, y - 6.5 * scale, width + 6 * scale, 13 * scale);
  ink.globalAlpha = 1;
  ink.textAlign = "left";
  ink.textBaseline = "middle";
  ink.fillStyle = colours.ink;
  ink.fillText(text, left, y);
}

/** Draws inside the plot only, and leaves the canvas as it was. */
export function inPlot(ink: Ink, frame: PlotFrame, draw: () => void): void {
  ink.save();
  ink.beginPath();
  ink.rect(frame.left, frame.top, frame.width, frame.height);
  ink.clip();
  draw();
  ink.restore();
}
