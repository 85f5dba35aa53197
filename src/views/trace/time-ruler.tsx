import type { TimeTick } from "../../charts/time-axis";
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

/** Closer than this to the one before it, the last label would lie over it, px. */
const CROWDED = 108;
/** Letters of a time of day; a date is longer. */
const SHORT_LABEL = 6;

/** The last label stands left of its tick where it would be cut; without room for that it is left out. */
function withoutCrowdedEnd(ticks: readonly TimeTick[], toX: (t: number) => number, end: number): readonly TimeTick[] {
  const [last, before] = [ticks.at(-1), ticks.at(-2)];
  if (last === undefined || before === undefined || toX(last.at) <= end - LAST_LABEL) return ticks;
  return toX(last.at) - toX(before.at) < CROWDED && last.label.length > SHORT_LABEL ? ticks.slice(0, -1) : ticks;
}

/** The axis of time that all strips share; the instant under the cursor stands on it. */
export function TimeRuler({ model, words, layout }: RulerProps) {
  const { axisWidth, plotWidth } = layout;
  const window = useObserved(model.window);
  const cursor = useObserved(model.cursor);
  const toX = (t: number) => axisWidth + ((t - window.from) / (window.to - window.from)) * plotWidth;
  const drawn = withoutCrowdedEnd(words.ticks(window), toX, axisWidth + plotWidth);
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
