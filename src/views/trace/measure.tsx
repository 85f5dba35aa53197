import { formatQuantity, formatReading } from "../../../shared/units/format-quantity";
import type { UnitChoice } from "../../../shared/units/unit-choice";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { type Band, firstFrom } from "../../charts/bands";
import { bareHeading, type Strip } from "../../charts/strips";
import { useObserved } from "./observable";
import type { TraceModel } from "./trace-model";
import { valueAt } from "./value-at";

type MeasureProps = {
  readonly model: TraceModel;
  readonly strips: readonly Strip[];
  readonly bands: readonly Band[];
  /** Said where no running pump stands under the trace; null while that is not worked out. */
  readonly noCycles: string | null;
  readonly units: UnitChoice;
  readonly plotWidth: number;
};

/** What lies between two instants: time, change and slope of each channel, cycles of the pump. */
export function Measure({ model, strips, bands, noCycles, units, plotWidth }: MeasureProps) {
  const measuring = useObserved(model.measuring);
  useObserved(model.detail);
  if (measuring === null) return <p className="measured small">{TRACE_WORDS.howToMeasure}</p>;
  if (measuring.to === null) return <p className="measured small">{TRACE_WORDS.firstPointSet}</p>;
  const [from, to] = [Math.min(measuring.from, measuring.to), Math.max(measuring.from, measuring.to)];
  const starts = bands.find(({ kind }) => kind === "running")?.places;
  const cycles = starts === undefined ? noCycles : TRACE_WORDS.cycles(firstFrom(starts, to) - firstFrom(starts, from));
  const changes = strips.flatMap((strip) =>
    strip.quantity === "state" ? [] : strip.channels.map((index) => sayChange(model, index, strip, { from, to }, units, plotWidth)),
  );
  return (
    <p className="measured small" role="status">
      <b>{formatQuantity(to - from, "time", units, 4)}</b>
      {changes.filter((text) => text !== null).map((text) => `; ${text}`)}
      {cycles === null ? "" : `; ${cycles}`}
    </p>
  );
}

function sayChange(
  model: TraceModel,
  index: number,
  strip: Strip,
  { from, to }: { readonly from: number; readonly to: number },
  units: UnitChoice,
  plotWidth: number,
): string | null {
  const window = model.window.get();
  const pixel = (window.to - window.from) / Math.max(50, plotWidth);
  const samples = model.detail.get()?.channels[index] ?? null;
  const [first, last] = [from, to].map((t) => valueAt(model.channels[index], samples, t, pixel));
  if (first === null || last === null || !(to > from)) return null;
  const change = (last.low + last.high - first.low - first.high) / 2;
  const shown = strip.shown === "gaugePressure" || strip.shown === "absolutePressure" ? "pressureDifference" : strip.shown;
  if (shown === "temperature") return null;
  const sign = change > 0 ? "+" : "";
  const perMinute = formatQuantity((change * 60) / (to - from), shown, units, 2);
  const whole = `${sign}${formatReading(change, change, model.channels[index].trace.step, shown, units)}`;
  return `${bareHeading(model.channels[index].trace.heading)} ${TRACE_WORDS.perMinute(whole, `${sign}${perMinute}`)}`;
}
