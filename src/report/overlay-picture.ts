import type { PressureProfile } from "../../shared/findings/comparison";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { COMPARISON_WORDS } from "../../shared/wording/comparison";
import { OVERLAY, overlayGeometry } from "../charts/overlay-geometry";
import { type Markup, markup } from "./markup";

const SIDES = ["before", "after"] as const;

/** Two visits over one another as SVG: before dashed, after solid, each with the spread of its days or cycles. */
export function drawOverlay(pair: readonly PressureProfile[], kind: "day" | "cycle", units: UnitChoice, alternative: string): Markup {
  const { unit, visits, xTicks, yTicks } = overlayGeometry(pair, kind, units);
  const { width, height, left, right, top, bottom } = OVERLAY;
  const floor = height - bottom;
  return markup`<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${alternative}">
<text class="name" x="${left}" y="${top - 6}">${COMPARISON_WORDS.pressure(unit)}</text><text class="level-name" x="${width - right}" y="${top - 6}" text-anchor="end">${COMPARISON_WORDS.key}</text>
${yTicks.map(({ y, label }) => markup`<line class="grid" x1="${left}" x2="${width - right}" y1="${y}" y2="${y}"/><text class="tick" x="${left - 6}" y="${y + 4}" text-anchor="end">${label}</text>`)}
${visits.map(({ spread }, i) => markup`<path class="spread ${SIDES[i]}" d="${spread}"/>`)}${visits.map(({ line }, i) => markup`<path class="middle ${SIDES[i]}" d="${line}"/>`)}
${xTicks.map(({ x, label }) => markup`<line class="mark" x1="${x}" x2="${x}" y1="${floor}" y2="${floor + 4}"/><text class="tick" x="${x}" y="${floor + 15}" text-anchor="${x > width - 30 ? "end" : x < left + 20 ? "start" : "middle"}">${label}</text>`)}
<text class="tick" x="${(left + width) / 2}" y="${height - 4}" text-anchor="middle">${kind === "day" ? COMPARISON_WORDS.ofDay : COMPARISON_WORDS.sinceStart}</text></svg>`;
}
