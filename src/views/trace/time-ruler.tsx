import { labelRoom, type TimeTick } from "../../charts/time-axis";
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

type Placed = { readonly x: number; readonly label: string; readonly day: string | null; readonly isEnd: boolean };

/**
 * Where the labels stand. The last one stands left of its tick where it would be cut, and is left out without room for that; the name of a
 * day gives way to that of the next day where both have no room.
 */
export function placeTicks(ticks: readonly TimeTick[], toX: (t: number) => number, end: number): readonly Placed[] {
  const placed = ticks.map(({ at, label, day }) => ({ x: toX(at), label, day, isEnd: toX(at) > end - LAST_LABEL }));
  const [last, before] = [placed.at(-1), placed.at(-2)];
  const isCrowded = last?.isEnd === true && before !== undefined && last.x - before.x < 1.5 * labelRoom(last.label.length);
  const shown = isCrowded ? placed.slice(0, -1) : placed;
  return shown.map((tick, i) => {
    const next = shown.slice(i + 1).find(({ day }) => day !== null);
    const room = next === undefined ? Number.POSITIVE_INFINITY : next.x - tick.x;
    const needed = labelRoom(tick.day?.length ?? 0) * (next?.isEnd === true ? 1.5 : 1);
    return room < needed ? { ...tick, day: null } : tick;
  });
}

/** The axis of time that all strips share; the instant under the cursor stands on it. */
export function TimeRuler({ model, words, layout }: RulerProps) {
  const { axisWidth, plotWidth } = layout;
  const window = useObserved(model.window);
  const cursor = useObserved(model.cursor);
  const toX = (t: number) => axisWidth + ((t - window.from) / (window.to - window.from)) * plotWidth;
  const drawn = placeTicks(words.ticks(window), toX, axisWidth + plotWidth);
  return (
    <div className="time-ruler small" aria-hidden="true">
      {drawn.map(({ x, label, day, isEnd }) => (
        <span key={`${label} ${x}`} className="time-tick" data-at={isEnd ? "end" : "middle"} style={{ transform: `translateX(${x}px)` }}>
          <span>{label}</span>
          {day !== null && <span className="time-day">{day}</span>}
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
