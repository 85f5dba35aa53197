import { type KeyboardEvent, type Ref, useId, useMemo, useState } from "react";
import type { Clock } from "../../../shared/record/clock";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { dayLabel, localUnix } from "../../charts/time-axis";
import { timeOfDay } from "./time-of-day";
import type { TraceModel } from "./trace-model";
import { centred } from "./trace-window";

type GoToProps = {
  readonly model: TraceModel;
  readonly clock: Clock;
  readonly elapsed: boolean;
  readonly locale: string | null;
  /** The first field: a key of the trace leads there. */
  readonly field: Ref<HTMLInputElement>;
};

const DAY = 86_400;
/** More days than this are asked for in a field of their own rather than in a list. */
const MOST_LISTED = 92;

/** A time to go to: a day and time of the site's clock, or hours since the record began. */
export function GoToTime(props: GoToProps) {
  const { model, clock, elapsed, field } = props;
  const go = (t: number) => {
    if (!Number.isFinite(t)) return;
    model.moveTo(centred(model.window.get(), t, model.extent));
    model.cursor.set(Math.min(model.duration, Math.max(0, t)));
  };
  if (clock.kind === "absolute" && !elapsed) return <GoToClock {...props} clock={clock} go={go} />;
  return (
    <label className="tool-group">
      {TRACE_WORDS.goToHour}
      <input
        ref={field}
        type="number"
        min="0"
        max={model.duration / 3600}
        step="any"
        onChange={(event) => go(event.target.valueAsNumber * 3600)}
      />
    </label>
  );
}

type ClockProps = GoToProps & { readonly clock: Extract<Clock, { kind: "absolute" }>; readonly go: (t: number) => void };

function GoToClock({ model, clock, locale, field, go }: ClockProps) {
  const id = useId();
  const firstDay = Math.floor(localUnix(0, clock) / DAY);
  const lastDay = Math.floor(localUnix(model.duration, clock) / DAY);
  const [day, setDay] = useState(firstDay);
  const [typed, setTyped] = useState("");
  const time = timeOfDay(typed);
  const isWrong = typed.trim() !== "" && time === null;
  const goTo = (toDay: number, toTime: number) => go(instantOf(toDay * DAY + toTime, clock));
  const press = (event: KeyboardEvent) => {
    if (event.key === "Enter" && time !== null) goTo(day, time);
  };
  return (
    <fieldset className="tool-group go-to">
      <legend className="heard">{TRACE_WORDS.goToTime}</legend>
      <label htmlFor={`${id}-time`}>{TRACE_WORDS.goTo}</label>
      <DayChoice
        first={firstDay}
        last={lastDay}
        day={day}
        locale={locale}
        onDay={(to) => {
          setDay(to);
          goTo(to, time ?? 0);
        }}
      />
      <input
        id={`${id}-time`}
        ref={field}
        type="text"
        size={6}
        autoComplete="off"
        placeholder={TRACE_WORDS.timeExample}
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${id}-wrong` : undefined}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onKeyDown={press}
        onBlur={() => time !== null && goTo(day, time)}
      />
      {isWrong && (
        <span id={`${id}-wrong`} role="status">
          {TRACE_WORDS.timeWrong}
        </span>
      )}
    </fieldset>
  );
}

type DayProps = {
  /** Days since 1970 of the site's clock. */
  readonly first: number;
  readonly last: number;
  readonly day: number;
  readonly locale: string | null;
  readonly onDay: (day: number) => void;
};

function DayChoice({ first, last, day, locale, onDay }: DayProps) {
  const listed = useMemo(() => daysListed(first, last), [first, last]);
  const stamp = (of: number) => new Date(of * DAY * 1000);
  const iso = (of: number) => stamp(of).toISOString().slice(0, 10);
  if (last - first < MOST_LISTED) {
    return (
      <select aria-label={TRACE_WORDS.goToDay} value={day} onChange={(event) => onDay(Number(event.target.value))}>
        {listed.map((one) => (
          <option key={one} value={one}>
            {dayLabel(stamp(one), locale)}
          </option>
        ))}
      </select>
    );
  }
  return (
    <input
      type="date"
      aria-label={TRACE_WORDS.goToDay}
      min={iso(first)}
      max={iso(last)}
      value={iso(day)}
      onChange={(event) => Number.isFinite(event.target.valueAsNumber) && onDay(Math.floor(event.target.valueAsNumber / 1000 / DAY))}
    />
  );
}

function daysListed(first: number, last: number): readonly number[] {
  return Array.from({ length: Math.min(MOST_LISTED, last - first + 1) }, (_, k) => first + k);
}

/** The site's clock back to seconds of the record; the offset is the one at that time, so a change of daylight saving in between is right. */
function instantOf(local: number, clock: Extract<Clock, { kind: "absolute" }>): number {
  const guess = local - localUnix(0, clock);
  return guess + (local - localUnix(guess, clock));
}
