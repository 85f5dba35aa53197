import type { Span } from "../../../shared/findings/span";
import { formatNumber, formatQuantity, type Shown, scaleOf } from "../../../shared/units/format-quantity";
import { seconds } from "../../../shared/units/quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { LOOK_WORDS } from "../../../shared/wording/chart";
import type { ChartAxis, ChartData, ChartMark, ChartSpec } from "../chart-spec";
import { inOneRow, type TimeTick } from "../time-axis";
import type { Point } from "../trace-series";
import type { Look, LookAxis, LookMark, LookShown } from "./look";

type ShownLook = Extract<Look, { state: "shown" }>;
export type LookChart = { readonly spec: ChartSpec; readonly data: ChartData; readonly xTitle: string; readonly yTitle: string };

type Way = { readonly symbol: string; readonly toShown: (si: number) => number };

/** SI to the unit shown. 1/p is shown per unit of the chosen pressure. */
function wayOf(shown: LookShown, units: UnitChoice): Way {
  if (shown !== "inversePressure") return scaleOf(shown, units);
  const pressure = scaleOf("absolutePressure", units);
  return { symbol: LOOK_WORDS.per(pressure.symbol), toShown: (inverse) => 1 / pressure.toShown(1 / inverse) };
}

/** Ticks of an axis of clock time between two instants of the record. */
export type TicksOf = (window: Span) => readonly TimeTick[];

/** A picture in the reader's units. */
export function lookChart(look: ShownLook, units: UnitChoice, ticksOf: TicksOf): LookChart {
  const x = wayOf(look.x.shown, units);
  const y = wayOf(look.y.shown, units);
  const xs = Float64Array.from(look.xs, x.toShown);
  const ys = look.ys.map((line) => line.map((v): Point => (v === null || v === undefined ? v : y.toShown(v))));
  const marks = look.marks.map((mark) => markOf(mark, look, units));
  const spec: ChartSpec = {
    lines: look.lines,
    x: axisOf(look.x, x, [xs], [], units, ticksOf),
    y: axisOf(look.y, y, ys, marks, units, ticksOf),
    marks,
    shaded: look.shaded,
  };
  return {
    spec,
    data: { x: xs, ys },
    xTitle: look.x.isInstant === true ? LOOK_WORDS.secondsOfRecord : withUnit(look.x, x),
    yTitle: withUnit(look.y, y),
  };
}

/** Lengths beyond this are written in minutes and hours, s. */
const LONG = 300;
const ROUND_TIMES = [30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14_400, 43_200, 86_400, 172_800, 604_800];

/** Round lengths of time, at most eight of them. */
function roundTimes(low: number, high: number): readonly number[] {
  const step = ROUND_TIMES.find((own) => (high - low) / own <= 8) ?? 10 ** Math.ceil(Math.log10((high - low) / 8));
  const first = Math.ceil(low / step);
  return Array.from({ length: Math.floor(high / step) - first + 1 }, (_, k) => (first + k) * step);
}

const isLong = ({ low, high, shown }: LookAxis): boolean => shown === "time" && low !== null && high !== null && high - low > LONG;

/** As the numbers are headed, whose unit never changes along the axis. */
const withUnit = ({ title }: LookAxis, { symbol }: Way): string => (symbol === "" || title === "" ? title : `${title}, ${symbol}`);

const titleOf = (axis: LookAxis, { symbol }: Way): string => {
  const { title, shown, isInstant, ticks } = axis;
  return symbol === "" || isInstant === true || isLong(axis) || (shown === "time" && ticks !== undefined) ? title : `${title}, ${symbol}`;
};

function axisOf(
  axis: LookAxis,
  way: Way,
  lists: readonly ArrayLike<Point>[],
  marks: readonly ChartMark[],
  units: UnitChoice,
  ticksOf: TicksOf,
): ChartAxis {
  const [least, greatest] = rangeOf(lists, marks);
  if (axis.decades !== undefined) return { title: titleOf(axis, way), ...decadesOf(least, greatest, axis.decades, units) };
  const room = (greatest - least || Math.abs(greatest) || 1) * 0.05;
  const low = axis.low === null ? least - room : way.toShown(axis.low);
  const high = axis.high === null ? greatest + room : way.toShown(axis.high);
  return { title: titleOf(axis, way), low, high, ...ticksWritten(axis, { low, high }, units, ticksOf) };
}

/** A logarithmic axis down to the least value, though no more than some powers of ten below the greatest. */
function decadesOf(least: number, greatest: number, most: number, units: UnitChoice): Omit<ChartAxis, "title"> {
  const high = (greatest > 0 ? greatest : 1) * 1.5;
  const low = Math.max(least, high / 10 ** most);
  const ticks: number[] = [];
  for (let power = Math.ceil(Math.log10(low)); power <= Math.floor(Math.log10(high)); power++) ticks.push(10 ** power);
  return { low, high, ticks, logarithmic: true, write: (v) => formatNumber(v, Math.max(0, -Math.round(Math.log10(v))), units.locale) };
}

/** Lengths of time over several powers of ten stand on round lengths, instants on round times of the clock, the rest on round numbers. */
function ticksWritten(
  axis: LookAxis,
  range: { readonly low: number; readonly high: number },
  units: UnitChoice,
  ticksOf: TicksOf,
): Partial<ChartAxis> {
  if (axis.ticks !== undefined) {
    return { ticks: axis.ticks, logarithmic: true, write: (v) => formatQuantity(v, "time", units, 1) };
  }
  if (axis.shown === "time" && axis.isInstant !== true && range.high - range.low > LONG) {
    return { ticks: roundTimes(range.low, range.high), write: (v) => (v === 0 ? "0" : formatQuantity(v, "time", units, 2)) };
  }
  if (axis.isInstant !== true) return {};
  const ticks = ticksOf({ from: seconds(range.low), to: seconds(range.high) });
  const labels = new Map(ticks.map((tick) => [tick.at, inOneRow(tick)]));
  return { ticks: [...labels.keys()], write: (v) => labels.get(v) ?? "" };
}

function rangeOf(lists: readonly ArrayLike<Point>[], marks: readonly ChartMark[]): readonly [number, number] {
  let least = Infinity;
  let greatest = -Infinity;
  const see = (v: Point) => {
    if (v === null || v === undefined || Number.isNaN(v)) return;
    least = Math.min(least, v);
    greatest = Math.max(greatest, v);
  };
  for (const list of lists) for (let i = 0; i < list.length; i++) see(list[i]);
  for (const mark of marks) if (mark.axis === "y") for (const v of mark.kind === "line" ? [mark.at] : [mark.from, mark.to]) see(v);
  return least <= greatest ? [least, greatest] : [0, 1];
}

function markOf(mark: LookMark, look: ShownLook, units: UnitChoice): ChartMark {
  const { shown } = mark.axis === "x" ? look.x : look.y;
  const { toShown } = wayOf(shown, units);
  if (mark.kind === "area") return { kind: "area", axis: mark.axis, from: toShown(mark.from), to: toShown(mark.to), label: mark.name };
  const value = mark.at === 0 || mark.name === "" ? "" : ` ${sayValue(mark.at, shown, units)}`;
  return { kind: "line", axis: mark.axis, at: toShown(mark.at), label: mark.name + value, dash: mark.dash };
}

function sayValue(value: number, shown: LookShown, units: UnitChoice): string {
  if (shown !== "inversePressure") return formatQuantity(value, shown satisfies Shown, units);
  const { symbol, toShown } = wayOf(shown, units);
  return `${formatNumber(toShown(value), 4, units.locale)} ${symbol}`;
}
