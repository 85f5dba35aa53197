import type { Clock } from "../../../shared/record/clock";
import { TRACE_WORDS } from "../../../shared/wording/trace";
import { localUnix } from "../../charts/time-axis";
import type { TraceModel } from "./trace-model";
import { centred } from "./trace-window";

type GoToProps = { readonly model: TraceModel; readonly clock: Clock; readonly elapsed: boolean };

/** A time to go to: a date and time of the site's clock, or hours since the record began. */
export function GoToTime({ model, clock, elapsed }: GoToProps) {
  const go = (t: number) => {
    if (!Number.isFinite(t)) return;
    model.moveTo(centred(model.window.get(), t, model.duration));
    model.cursor.set(Math.min(model.duration, Math.max(0, t)));
  };
  if (clock.kind === "elapsed" || elapsed) {
    return (
      <label className="tool-group">
        {TRACE_WORDS.goToHour}
        <input type="number" min="0" max={model.duration / 3600} step="any" onChange={(event) => go(event.target.valueAsNumber * 3600)} />
      </label>
    );
  }
  const local = (t: number) => new Date(localUnix(t, clock) * 1000).toISOString().slice(0, 16);
  return (
    <label className="tool-group">
      {TRACE_WORDS.goTo}
      <input
        type="datetime-local"
        defaultValue={local(0)}
        min={local(0)}
        max={local(model.duration)}
        onChange={(event) => go(instantOf(event.target.valueAsNumber / 1000, clock))}
      />
    </label>
  );
}

/** The site's clock back to seconds of the record; the offset is the one at that time, so a change of daylight saving in between is right. */
function instantOf(local: number, clock: Extract<Clock, { kind: "absolute" }>): number {
  const guess = local - localUnix(0, clock);
  return guess + (local - localUnix(guess, clock));
}
