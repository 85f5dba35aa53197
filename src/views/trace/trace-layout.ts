import type { Band } from "../../charts/bands";
import { PLOT_RIGHT } from "../../charts/chart-spec";
import type { Strip } from "../../charts/strips";
import type { Selection } from "../../state/visit-state";

/** How the trace uses its place. "beside": it stands beside the story; "pinned": above the story, a third of the height; "large": there, all of it. */
export type TraceLayout = {
  readonly kind: "beside" | "pinned" | "large";
  /** Names have room beside what they name, and the toolbar has room for everything. */
  readonly isRoomy: boolean;
  readonly axisWidth: number;
  readonly plotWidth: number;
  readonly overviewHeight: number;
  /** Height of the page in sight, px: strips and bands should fit into it together. */
  readonly viewHeight: number;
};

/** From here on record and story stand side by side; src/look/layout.css has the same. What is printed keeps the pictures of the screen. */
export const SIDE_BY_SIDE = "(min-width: 960px), print";
/** Lower than this (a phone on its side, a page magnified four times) nothing is pinned: the story would have no room left. */
export const LOW = "(max-height: 520px)";
const ROOMY = 540;

/** @param place what the page and the person allow     @param width of the trace, px     @param viewHeight of the page in sight, px */
export function layoutOf(place: { readonly isBeside: boolean; readonly isLarge: boolean }, width: number, viewHeight: number): TraceLayout {
  const isRoomy = width >= ROOMY;
  const axisWidth = isRoomy ? 104 : 76;
  const kind = place.isBeside ? "beside" : place.isLarge ? "large" : "pinned";
  const overviewHeight = kind === "pinned" ? 20 : 30;
  return { kind, isRoomy, axisWidth, plotWidth: Math.max(0, width - axisWidth - PLOT_RIGHT), overviewHeight, viewHeight };
}

/** Pressure is what the visit is about: it gets the most height. */
export function stripHeight(strip: Strip, isFirst: boolean, alone: boolean, { kind, viewHeight }: TraceLayout): number {
  if (kind === "pinned") return between(76, viewHeight * 0.14, 180);
  if (kind === "large") return isFirst ? 150 : 72;
  if (isFirst) return between(130, viewHeight * (alone ? 0.4 : 0.25), 420);
  return strip.quantity === "state" ? 40 : between(54, viewHeight * 0.1, 140);
}

/** Pinned, only a few bands have room: the one that is lit, then those that say most. */
const FIRST = ["over-marked-pressure", "running", "oscillation", "short-cycles", "draw", "leak-down"];
const PINNED_BANDS = 3;

export function bandsShown(bands: readonly Band[], { finding }: Selection, { kind }: TraceLayout): readonly Band[] {
  if (kind !== "pinned") return bands;
  const rank = (band: Band) => (finding !== null && band.finding === finding ? -1 : (FIRST.indexOf(band.kind) + 99) % 99);
  const chosen = [...bands].sort((a, b) => rank(a) - rank(b)).slice(0, PINNED_BANDS);
  return bands.filter((band) => chosen.includes(band));
}

const between = (least: number, wanted: number, most: number): number => Math.round(Math.min(most, Math.max(least, wanted)));
