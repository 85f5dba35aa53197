import type { Span } from "../../../shared/findings/span";
import type { TimeTick } from "../../charts/time-axis";
import { useObserved } from "./observable";
import type { TraceModel } from "./trace-model";

type RulerProps = {
  readonly model: TraceModel;
  readonly ticks: (window: Span) => readonly TimeTick[];
  readonly sayInstant: (t: number) => string;
  readonly axisWidth: number;
  readonly plotWidth: number;
};

/** The axis of time that all strips share; the instant under the cursor stands on it. */
export function TimeRuler({ model, ticks, sayInstant, axisWidth, plotWidth }: RulerProps) {
  const window = useObserved(model.window);
  const cursor = useObserved(model.cursor);
  const toX = (t: number) => axisWidth + ((t - window.from) / (window.to - window.from)) * plotWidth;
  const drawn = ticks(window);
  return (
    <div className="time-ruler small" aria-hidden="true">
      {drawn.map((tick, i) => (
        <span key={tick.at} className="time-tick" style={{ transform: `translateX(${toX(tick.at)}px)` }}>
          <span>{tick.label}</span>
          {tick.day !== null && (i === 0 || drawn.length < 14) && <span className="time-day">{tick.day}</span>}
        </span>
      ))}
      {cursor !== null && (
        <output
          className="time-cursor"
          style={{ transform: `translateX(clamp(0px, ${toX(cursor)}px - 50%, ${axisWidth + plotWidth}px - 100%))` }}
        >
          {sayInstant(cursor)}
        </output>
      )}
    </div>
  );
}
