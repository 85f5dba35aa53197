import type { BandKind } from "../../shared/wording/band";
import type { Colours, ColourToken } from "./palette";

/** Each band has a pattern of its own; the hue only supports it. */
export const BAND_HUES: { readonly [K in BandKind]: ColourToken } = {
  "over-marked-pressure": "ink",
  running: "speed",
  "short-cycles": "ink",
  draw: "flow",
  steady: "flow",
  drift: "pressure",
  oscillation: "pressure",
  "leak-down": "other",
  "log-fault": "ink-soft",
};

type Stroke = (ink: CanvasRenderingContext2D, size: number) => void;

const line = (ink: CanvasRenderingContext2D, points: readonly (readonly [number, number])[]) => {
  ink.beginPath();
  points.forEach(([x, y], i) => {
    if (i === 0) ink.moveTo(x, y);
    else ink.lineTo(x, y);
  });
  ink.stroke();
};

/** What a tile of 8 by 8 shows; "solid" bands have none. */
const STROKES: { readonly [K in BandKind]: Stroke | null } = {
  running: null,
  "over-marked-pressure": null,
  "short-cycles": (ink, s) =>
    line(ink, [
      [s / 4, 0],
      [s / 4, s],
    ]),
  draw: (ink, s) => {
    line(ink, [
      [-1, 1],
      [1, -1],
    ]);
    line(ink, [
      [0, s],
      [s, 0],
    ]);
    line(ink, [
      [s - 1, s + 1],
      [s + 1, s - 1],
    ]);
  },
  steady: (ink, s) =>
    line(ink, [
      [0, s / 2],
      [s, s / 2],
    ]),
  drift: (ink, s) => {
    line(ink, [
      [-1, -1],
      [1, 1],
    ]);
    line(ink, [
      [0, 0],
      [s, s],
    ]);
  },
  oscillation: (ink, s) =>
    line(ink, [
      [0, s * 0.5],
      [s * 0.25, s * 0.1],
      [s * 0.75, s * 0.9],
      [s, s * 0.5],
    ]),
  "leak-down": (ink, s) => {
    ink.beginPath();
    ink.arc(s / 2, s / 2, s / 6, 0, 7);
    ink.fill();
  },
  "log-fault": (ink, s) => {
    line(ink, [
      [0, 0],
      [s, s],
    ]);
    line(ink, [
      [0, s],
      [s, 0],
    ]);
  },
};

/** Side of a pattern, px. */
export const PATTERN_TILE = 8;

/** How a band is filled on a canvas of this pixel ratio. */
export function bandFill(kind: BandKind, colours: Colours, ratio: number, onto: CanvasRenderingContext2D): string | CanvasPattern {
  const colour = colours[BAND_HUES[kind]];
  const stroke = STROKES[kind];
  if (stroke === null) return colour;
  const tile = document.createElement("canvas");
  tile.width = tile.height = Math.round(PATTERN_TILE * ratio);
  const ink = tile.getContext("2d");
  if (ink === null) return colour;
  ink.strokeStyle = ink.fillStyle = colour;
  ink.lineWidth = 1.4 * ratio;
  stroke(ink, tile.width);
  return onto.createPattern(tile, "repeat") ?? colour;
}
