import { useObserved } from "./observable";
import type { TraceLayout } from "./trace-layout";
import type { TraceModel } from "./trace-model";
import type { TraceWords } from "./use-trace-words";

type RulerProps = {
  readonly model: TraceModel;
  readonly words: TraceWords;
  readonly layout: TraceLayout;
};

/** Closer than this to the right end, a label would be cut, px. */
const LAST_LABEL = 34;

/** The axis of time that all strips share; the instant under the cursor stands on it. */
export function TimeRuler({ model, words, layout }: RulerProps) {
  const { axisWidth, plotWidth } = layout;
  const window = useObserved(model.window);
  const cursor = useObserved(model.cursor);
  const toX = (t: number) => axisWidth + ((t - window.from) / (window.to - window.from)) * plotWidth;
  const drawn = words.ticks(window);
  return (
    <div className="time-ruler small" aria-hidden="true">
      {drawn.map((tick, i) => (
        <span
          key={tick.at}
          className="time-tick"
          data-at={toX(tick.at) > axisWidth + plotWidth - LAST_LABEL ? "end" : "middle"}
          style={{ transform: `translateX(${toX(tick.at)}px)` }}
        >
          <span>{tick.label}</span>
          {tick.day !== null && (i === 0 || drawn.length < 14) && <span className="time-day">{tick.day}</span>}
        </span>
      ))}
      {cursor !== null && (
        <output
          className="time-cursor"
          style={{ transform: `translateX(clamp(0px, ${toX(cursor)}px - 50%, ${axisWidth + plotWidth}px - 100%))` }}
        >
          {words.sayInstant(cursor)}
        </output>
      )}
    </div>
  );
}
