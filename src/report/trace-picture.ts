import type { ThinTrace } from "../../shared/record/thin-trace";
import { formatNumber, type Shown, scaleOf } from "../../shared/units/format-quantity";
import type { UnitChoice } from "../../shared/units/unit-choice";
import { niceRange, rounded, tickDecimals } from "../charts/panel-scale";
import type { TimeTick } from "../charts/time-axis";
import { type Markup, markup, NOTHING } from "./markup";

const WIDTH = 720;
const LEFT = 52;
const RIGHT = 8;
/** Above each panel stands its name, under the last one the time. */
const NAME = 16;
const AXIS = 32;
const GAP = 8;
/** Pressure first and tallest: it is what the visit is about. */
const ORDER = ["pressure", "flow", "speed", "running", "current", "power"];
const place = (role: string) => (ORDER.includes(role) ? ORDER.indexOf(role) : ORDER.length);
const MOST_PANELS = 4;

/** A pressure to draw across the panel of pressure, Pa gauge: the set pressure with its band, or a limit. */
export type Level = { readonly at: number; readonly label: string; readonly band: number | null };

export type TracePicture = {
  readonly trace: ThinTrace;
  readonly units: UnitChoice;
  readonly ticks: readonly TimeTick[];
  readonly levels: readonly Level[];
  /** Stretches to shade, record time, s. */
  readonly shaded: readonly { readonly from: number; readonly to: number }[];
  /** What the picture shows, for those who cannot see it. */
  readonly alternative: string;
  /** Pictures of single findings are lower than that of the whole record. */
  readonly isSmall: boolean;
};

/** One panel per channel over a shared time axis, as SVG: least to greatest value of each column, gaps as gaps. */
export function drawTrace({ trace, units, ticks, levels, shaded, alternative, isSmall }: TracePicture): Markup {
  const channels = trace.channels
    .filter((channel) => channel.low.some((value) => value !== null))
    .toSorted((a, b) => place(a.role) - place(b.role))
    .slice(0, MOST_PANELS);
  const heights = channels.map(({ role }) => (role === "pressure" ? 120 : 64) * (isSmall ? 0.66 : 1));
  const tops = heights.map((_, i) => NAME + heights.slice(0, i).reduce((sum, height) => sum + height + GAP + NAME, 0));
  const bottom = channels.length === 0 ? 0 : (tops.at(-1) ?? 0) + (heights.at(-1) ?? 0);
  const x = (s: number) => LEFT + ((s - trace.fromS) / Math.max(1e-9, trace.toS - trace.fromS)) * (WIDTH - LEFT - RIGHT);
  const shades = shaded
    .map(({ from, to }) => [x(Math.max(from, trace.fromS)), x(Math.min(to, trace.toS))])
    .filter(([from, to]) => to >= from);
  return markup`<svg viewBox="0 0 ${WIDTH} ${bottom + AXIS}" role="img" aria-label="${alternative}">
${channels.map((channel, i) => markup`${shades.map(([from, to]) => markup`<rect class="shade" x="${rounded(from)}" y="${tops[i]}" width="${rounded(Math.max(1, to - from))}" height="${heights[i]}"/>`)}${drawPanel(channel, tops[i], heights[i], channel.role === "pressure" ? levels : [], units)}`)}
${ticks.map((tick) => drawTick(tick, x(tick.at), bottom))}
</svg>`;
}

function drawTick({ label, day }: TimeTick, x: number, bottom: number): Markup {
  const anchor = x < LEFT + 30 ? "start" : x > WIDTH - 40 ? "end" : "middle";
  const text = (words: string, y: number) => markup`<text class="tick" x="${rounded(x)}" y="${y}" text-anchor="${anchor}">${words}</text>`;
  return markup`<line class="mark" x1="${rounded(x)}" x2="${rounded(x)}" y1="${bottom}" y2="${bottom + 4}"/>${text(label, bottom + 15)}${day === null ? null : text(day, bottom + 28)}`;
}

type ThinChannel = ThinTrace["channels"][number];

const SHOWN_AS_IS: readonly string[] = ["state", "none"];
const shownOf = (channel: ThinChannel): Shown => (SHOWN_AS_IS.includes(channel.quantity) ? "none" : (channel.quantity as Shown));

function drawPanel(channel: ThinChannel, top: number, height: number, levels: readonly Level[], units: UnitChoice): Markup {
  const scale = scaleOf(shownOf(channel), units);
  const toShown = (value: number | null) => (value === null ? null : scale.toShown(value));
  const [low, high] = [channel.low.map(toShown), channel.high.map(toShown)];
  const { from, to, step } = niceRange(
    low,
    high,
    levels.map(({ at }) => scale.toShown(at)),
  );
  const y = (value: number) => top + height - ((value - from) / (to - from)) * height;
  const inside = (value: number) => Math.min(top + height, Math.max(top, y(value)));
  const ticks = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
  const name = `${channel.heading}${scale.symbol === "" || channel.heading.includes(scale.symbol) ? "" : `, ${scale.symbol}`}`;
  return markup`<g class="${channel.role}">
${levels.map(({ at, band }) => (band === null ? NOTHING : markup`<rect class="band" x="${LEFT}" width="${WIDTH - LEFT - RIGHT}" y="${rounded(inside(scale.toShown(at + band)))}" height="${rounded(inside(scale.toShown(at - band)) - inside(scale.toShown(at + band)))}"/>`))}
${ticks.map((value) => markup`<line class="grid" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${rounded(y(value))}" y2="${rounded(y(value))}"/><text class="tick" x="${LEFT - 6}" y="${rounded(y(value) + 4)}" text-anchor="end">${formatNumber(value, tickDecimals(step), units.locale)}</text>`)}
<path d="${columnPath(low, high, y)}"/>
${levels.map(({ at }) => markup`<line class="level" x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${rounded(y(scale.toShown(at)))}" y2="${rounded(y(scale.toShown(at)))}"/>`)}
<text class="level-name" x="${WIDTH - RIGHT}" y="${top - 4}" text-anchor="end">${levels.map(({ label }) => label).join("; ")}</text>
<text class="name" x="${LEFT}" y="${top - 4}">${name}</text>
</g>`;
}

/** A line from least to greatest in every column, joined to its neighbour where there is no gap. */
function columnPath(low: readonly (number | null)[], high: readonly (number | null)[], y: (value: number) => number): string {
  const width = (WIDTH - LEFT - RIGHT) / low.length;
  let path = "";
  let joined = false;
  for (let i = 0; i < low.length; i++) {
    const [a, b] = [low[i], high[i]];
    if (a === null || b === null) {
      joined = false;
      continue;
    }
    const x = rounded(LEFT + (i + 0.5) * width);
    path += `${joined ? "L" : "M"}${x} ${rounded(y(a))}${a === b ? (joined ? "" : "h0.1") : `L${x} ${rounded(y(b))}`}`;
    joined = true;
  }
  return path;
}
