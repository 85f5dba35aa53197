import type { ThinTrace } from "../../shared/record/thin-trace";
import { formatNumber, type Shown, scaleOf } from "../../shared/units/format-quantity";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { type Markup, markup } from "./markup";

const WIDTH = 720;
const PANEL = 130;
const LEFT = 64;
const BOTTOM = 22;
const GAP = 14;
const TOP = 8;
/** Pressure first: it is what the visit is about. */
const ORDER = ["pressure", "flow", "speed", "running", "current", "power"];
const place = (role: string) => (ORDER.includes(role) ? ORDER.indexOf(role) : ORDER.length);

export type TracePicture = {
  readonly trace: ThinTrace;
  readonly units: UnitChoice;
  /** Record time to the text under the axis. */
  readonly labelAt: (s: number) => string;
  /** Stretches to shade, record time, s. */
  readonly shaded: readonly { readonly from: number; readonly to: number }[];
  /** What the picture shows, for those who cannot see it. */
  readonly alternative: string;
};

/** One panel per channel over a shared time axis, as SVG: least to greatest value of each column, gaps as gaps. */
export function drawTrace({ trace, units, labelAt, shaded, alternative }: TracePicture): Markup {
  const channels = trace.channels
    .filter((channel) => channel.low.some((value) => value !== null))
    .toSorted((a, b) => place(a.role) - place(b.role))
    .slice(0, 4);
  const height = TOP + channels.length * (PANEL + GAP) + BOTTOM;
  const x = (s: number) => LEFT + ((s - trace.fromS) / Math.max(1e-9, trace.toS - trace.fromS)) * (WIDTH - LEFT);
  const marks = [0, 0.25, 0.5, 0.75, 1].map((share) => trace.fromS + share * (trace.toS - trace.fromS));
  return markup`<svg viewBox="0 0 ${WIDTH} ${height}" role="img" aria-label="${alternative}">
${shaded.map((span) => markup`<rect class="shade" x="${round(x(Math.max(span.from, trace.fromS)))}" y="0" width="${round(Math.max(1, x(Math.min(span.to, trace.toS)) - x(Math.max(span.from, trace.fromS))))}" height="${height - BOTTOM}"/>`)}
${channels.map((channel, i) => drawPanel(channel, TOP + i * (PANEL + GAP), units))}
${marks.map((s, i) => markup`<text class="tick" x="${round(x(s))}" y="${height - 6}" text-anchor="${i === 0 ? "start" : i === 4 ? "end" : "middle"}">${labelAt(s)}</text>`)}
</svg>`;
}

type ThinChannel = ThinTrace["channels"][number];

const SHOWN_AS_IS: readonly string[] = ["state", "none"];
const shownOf = (channel: ThinChannel): Shown => (SHOWN_AS_IS.includes(channel.quantity) ? "none" : (channel.quantity as Shown));

function drawPanel(channel: ThinChannel, top: number, units: UnitChoice): Markup {
  const scale = scaleOf(shownOf(channel), units);
  const toShown = (value: number | null) => (value === null ? null : scale.toShown(value));
  const [low, high] = [channel.low.map(toShown), channel.high.map(toShown)];
  const { from, to, step } = niceRange(low, high);
  const y = (value: number) => top + PANEL - ((value - from) / (to - from)) * PANEL;
  const ticks = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  return markup`<g class="${channel.role}">
${ticks.map((value) => markup`<line class="grid" x1="${LEFT}" x2="${WIDTH}" y1="${round(y(value))}" y2="${round(y(value))}"/><text class="tick" x="${LEFT - 6}" y="${round(y(value) + 4)}" text-anchor="end">${formatNumber(value, decimals, units.locale)}</text>`)}
<path d="${columnPath(low, high, y)}"/>
<text class="name" x="${LEFT + 6}" y="${top + 14}">${channel.heading}${scale.symbol === "" ? "" : `, ${scale.symbol}`}</text>
</g>`;
}

/** A line from least to greatest in every column, joined to its neighbour where there is no gap. */
function columnPath(low: readonly (number | null)[], high: readonly (number | null)[], y: (value: number) => number): string {
  const width = (WIDTH - LEFT) / low.length;
  let path = "";
  let joined = false;
  for (let i = 0; i < low.length; i++) {
    const [a, b] = [low[i], high[i]];
    if (a === null || b === null) {
      joined = false;
      continue;
    }
    const x = round(LEFT + (i + 0.5) * width);
    path += `${joined ? "L" : "M"}${x} ${round(y(a))}L${x} ${round(y(b))}`;
    joined = true;
  }
  return path;
}

const round = (value: number) => Math.round(value * 10) / 10;

/** A range with round ends and three to six steps that holds all values. */
function niceRange(low: readonly (number | null)[], high: readonly (number | null)[]): { from: number; to: number; step: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of low) if (value !== null && value < least) least = value;
  for (const value of high) if (value !== null && value > most) most = value;
  const span = most - least || Math.max(1, Math.abs(most));
  const rough = span / 4;
  const size = 10 ** Math.floor(Math.log10(rough));
  const step = size * ([1, 2, 5, 10].find((factor) => factor * size >= rough) ?? 10);
  const from = Math.floor(least / step) * step;
  const to = Math.ceil(most / step) * step;
  return { from, to: to > from ? to : from + step, step };
}
